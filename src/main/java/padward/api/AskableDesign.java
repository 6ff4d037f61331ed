package padward.api;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.group.Bus;
import padward.breakout.group.GroupNames;
import padward.breakout.survey.Survey;
import padward.change.Edit;
import padward.change.EditText;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.DelayTooLong;
import padward.route.search.SearchEngineKind;

/** A design that can be asked: a finished one, or one as if something were removed. */
public abstract sealed class AskableDesign permits FinishedDesign, WhatIfDesign {
    private final Design design;

    AskableDesign(Design design) {
        this.design = design;
    }

    Design design() {
        return design;
    }

    /** The design's name. */
    public String name() {
        return design.name();
    }

    /** All nets. */
    public List<FoundNet> nets() {
        return design.nets().stream().map(n -> Values.net(design, n)).toList();
    }

    /** All pads. */
    public List<FoundPad> pads() {
        return IntStream.range(0, design.fabric().pads().size())
                .mapToObj(i -> Values.pad(design, i))
                .toList();
    }

    /**
     * The net of a name, of its last parts, of a pattern that matches only one, or of {@code
     * cell.pin}.
     *
     * @throws BadInput when there is none, or several
     */
    public FoundNet net(String name) throws BadInput {
        return Values.net(design, NameLookup.requireNet(design, name, "net"));
    }

    /**
     * The pad of a name, a package pin, a port, a net of the board, or a pin of a header.
     *
     * @throws BadInput when there is none, or several
     */
    public FoundPad pad(String name) throws BadInput {
        return Values.pad(design, NameLookup.requirePad(design, name, "pad"));
    }

    /**
     * Whether a net gets out to a pad, with all that can be said about it. The route is the
     * shortest at the slow corner.
     *
     * @throws BadInput when a name means nothing, or several things, or a route's delay is beyond
     *     whole numbers of 31 bits
     */
    public Finding ask(String net, String pad) throws BadInput {
        Question question =
                new Question(
                        design,
                        NameLookup.requireNet(design, net, "net"),
                        NameLookup.requirePad(design, pad, "pad"),
                        Corner.SLOW);
        return new Finding(within("net", () -> Asker.ask(question, Progress.NONE)));
    }

    /** Only {@link BadInput} leaves the library for what is in the files. */
    static <T> T within(String what, Supplier<T> search) throws BadInput {
        try {
            return search.get();
        } catch (DelayTooLong fault) {
            throw new BadInput(what, "", "" + fault.getMessage(), "a longer route");
        }
    }

    /**
     * All pads for one net, the cheapest first; without explanations.
     *
     * @throws BadInput when the name means nothing, or several nets, or a route's delay is beyond
     *     whole numbers of 31 bits
     */
    public List<Finding> survey(String net) throws BadInput {
        Net found = NameLookup.requireNet(design, net, "net");
        Survey survey =
                within(
                        "net",
                        () ->
                                Survey.of(
                                        design,
                                        found,
                                        Corner.SLOW,
                                        SearchEngineKind.OWN,
                                        Progress.NONE));
        return survey.answers().stream().map(Finding::new).toList();
    }

    /**
     * Several nets together, as many as possible, without taking a port's pad.
     *
     * @param nets names, or patterns of several
     * @param pads names, patterns, {@code header NAME}, {@code bank NAME} or {@code any}
     * @throws BadInput when one means nothing, or a route's delay is beyond whole numbers of 31
     *     bits
     */
    public FoundGroup group(List<String> nets, List<String> pads) throws BadInput {
        List<Net> found = GroupNames.nets(design, nets, "nets");
        List<Integer> places =
                GroupNames.pads(
                        design,
                        pads,
                        (of, name) -> NameLookup.requirePad(of, name, "pads"),
                        "pads");
        Bus bus =
                within(
                        "nets",
                        () ->
                                Bus.of(
                                        design,
                                        found,
                                        places,
                                        Bus.Aim.MOST,
                                        Bus.Ports.KEEP,
                                        Progress.NONE));
        return new FoundGroup(design, bus);
    }

    /**
     * The design as if something were removed. Nothing is changed by it.
     *
     * @param edits such as {@code remove cell NAME}, {@code remove net NAME} or {@code disconnect
     *     port NAME}
     * @throws BadInput when one names nothing, or they do not fit the design
     */
    public WhatIfDesign whatIf(String... edits) throws BadInput {
        List<Edit> parsed = new ArrayList<>();
        for (String edit : edits) {
            parsed.add(EditText.parse(design, edit, "whatIf"));
        }
        if (Outcome.of(design, parsed) instanceof Outcome.Refused refused) {
            throw new BadInput(
                    "whatIf",
                    "",
                    "edits that fit the design",
                    String.join("; ", refused.reasons()));
        }
        return new WhatIfDesign(Outcome.apply(design, parsed));
    }
}
