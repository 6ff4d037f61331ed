package padward.breakout.survey;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupancy;
import padward.design.Occupant;
import padward.design.Terminal;
import padward.fabric.Pad;
import padward.route.search.SearchEngineKind;
import padward.unblock.release.FanOut;
import padward.unblock.release.LostEndpoint;
import padward.unblock.release.QuestionContext;
import padward.unblock.why.SearchLimits;

/**
 * What a what-if does to a question: the answer before and after, and what it gains and costs.
 *
 * @param edits the what-if
 * @param before the answer as things are
 * @param after the answer with the what-if
 * @param newlyOpen pads that the net reaches only with the what-if, of those that are offered
 * @param noLongerOpen pads that it reaches only without, of the same
 * @param price what the what-if costs, and the answer with it
 */
public record WhatIfReport(
        List<Edit> edits,
        Answer before,
        Answer after,
        List<Pad> newlyOpen,
        List<Pad> noLongerOpen,
        Price price) {
    /** Copies the lists. */
    public WhatIfReport {
        edits = List.copyOf(edits);
        newlyOpen = List.copyOf(newlyOpen);
        noLongerOpen = List.copyOf(noLongerOpen);
    }

    /**
     * Tries edits on top of a question's design. Surveys all pads twice.
     *
     * @throws IllegalArgumentException when an edit does not fit the design, or takes away the net
     *     of the question
     */
    public static WhatIfReport of(
            Question question, List<Edit> edits, SearchLimits limits, Progress progress) {
        Design design = question.design();
        Design tried = Outcome.apply(design, edits);
        Net net =
                tried.findNet(question.net().name())
                        .orElseThrow(
                                () ->
                                        new IllegalArgumentException(
                                                "the what-if removes net "
                                                        + question.net().name()
                                                        + " itself"));
        Question after = question.on(tried, net);
        Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        Set<Integer> openBefore = open(question, progress);
        Set<Integer> openAfter = open(after, progress);
        Answer answerBefore = asker.explained(question, limits, progress);
        Answer answerAfter = asker.explained(after, limits, progress);
        return new WhatIfReport(
                edits,
                answerBefore,
                answerAfter,
                padsOfOneOnly(design, openAfter, openBefore),
                padsOfOneOnly(design, openBefore, openAfter),
                price(question, answerBefore, edits).plus(Price.of(answerAfter)));
    }

    /** The pads that are open, of those that are offered. */
    private static Set<Integer> open(Question question, Progress progress) {
        Survey survey =
                Survey.of(
                        question.design(),
                        question.net(),
                        question.corner(),
                        SearchEngineKind.OWN,
                        progress);
        return survey.answers().stream()
                .filter(Answer.Open.class::isInstance)
                .map(a -> a.question().pad())
                .collect(Collectors.toSet());
    }

    /** The pads that are in one set and not in the other, in the order of the fabric. */
    private static List<Pad> padsOfOneOnly(Design design, Set<Integer> one, Set<Integer> other) {
        return one.stream()
                .filter(pad -> !other.contains(pad))
                .sorted()
                .map(design.fabric().pads()::get)
                .toList();
    }

    /** What the edits cost themselves. */
    private static Price price(Question question, Answer before, List<Edit> edits) {
        Design design = question.design();
        boolean disconnects =
                before.disconnected().map(d -> edits.contains(d.toEdit())).orElse(false);
        QuestionContext situation =
                new QuestionContext(
                        design,
                        question.net(),
                        disconnects ? before.disconnected() : Optional.empty(),
                        question.padValue());
        FanOut fanOut = new FanOut(situation, question.padValue());
        List<Price.LosingPort> ports = new ArrayList<>();
        List<Price.Cleared> obstacles = new ArrayList<>();
        Set<LostEndpoint> lost = new LinkedHashSet<>();
        for (Edit edit : edits) {
            if (edit instanceof Edit.DisconnectPort go) {
                design.ports().stream()
                        .filter(p -> p.name().equals(go.port()))
                        .map(p -> Price.LosingPort.of(design, p))
                        .forEach(ports::add);
                lost.add(new LostEndpoint(LostEndpoint.Kind.PORT, go.port()));
                drivenByPort(design, go.port())
                        .forEach(n -> lost.addAll(fanOut.losing(Occupant.ofNet(n.id()))));
            }
            Optional<Integer> occupant = removed(design, edit);
            occupant.ifPresent(
                    o -> {
                        lost.addAll(fanOut.losing(o));
                        obstacles.add(
                                new Price.Cleared(
                                        design.occupancy().occupant(o),
                                        fanOut.isRemovable(o)
                                                ? Price.Fate.REMOVABLE
                                                : Price.Fate.LOSES_FUNCTION));
                    });
        }
        return new Price(ports, List.of(), List.of(), obstacles, List.of(), List.copyOf(lost));
    }

    private static List<Net> drivenByPort(Design design, String port) {
        return design.nets().stream()
                .filter(
                        n ->
                                n.driver() instanceof Terminal.PortEnd end
                                        && design.ports().get(end.port()).name().equals(port))
                .toList();
    }

    private static Optional<Integer> removed(Design design, Edit edit) {
        Occupancy occupancy = design.occupancy();
        if (edit instanceof Edit.RemoveCell free) {
            return design.findCell(free.cell()).map(c -> new Occupant.ByCell(c).number());
        }
        if (edit instanceof Edit.RemoveNet free) {
            return design.findNet(free.net()).map(n -> new Occupant.ByNet(n).number());
        }
        return Optional.empty();
    }
}
