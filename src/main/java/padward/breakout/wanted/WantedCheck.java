package padward.breakout.wanted;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.Port;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.route.search.SearchEngineKind;

/** Looks how wanted nets stand in a design, and what changed since an earlier one. */
public final class WantedCheck {
    private final Design now;
    private final Optional<Design> was;
    private final Corner corner;
    private final int morePs;
    private final Asker asker;
    private final Optional<Asker> askerBefore;

    /**
     * @param was the earlier design, on the same device
     * @param morePs by how much a delay must move to be reported, picoseconds
     */
    public WantedCheck(Design now, Optional<Design> was, Corner corner, int morePs) {
        this.now = now;
        this.was = was;
        this.corner = corner;
        this.morePs = morePs;
        this.asker = new Asker(now.fabric(), SearchEngineKind.OWN);
        this.askerBefore = was.map(d -> new Asker(d.fabric(), SearchEngineKind.OWN));
    }

    /**
     * How a net stands.
     *
     * @throws BadInput when a name means nothing in either design, or several things
     */
    public WantedResult of(WantedNet wanted, Progress progress) throws BadInput {
        Optional<Net> before = was.isPresent() ? earlier(was.get(), wanted) : Optional.empty();
        Optional<Net> net =
                before.isPresent()
                        ? new NetCounterparts(was.get(), now).find(before.get())
                        : Optional.of(NameLookup.requireNet(now, wanted.net(), "net"));
        Optional<Answer> answerBefore =
                before.isPresent()
                        ? best(askerBefore.orElseThrow(), was.get(), before.get(), wanted, progress)
                        : Optional.empty();
        List<WantedChange> changes = new ArrayList<>();
        if (net.isEmpty()) {
            changes.add(change(WantedChange.Kind.GONE, "neither its name nor its driver is there"));
            List<NearRegister> near = new ArrayList<>();
            for (NearRegister one :
                    RegistersAround.of(before.orElseThrow(), was.orElseThrow(), now)) {
                near.add(answered(one, wanted, progress));
            }
            return new WantedResult(wanted, net, Optional.empty(), answerBefore, changes, near);
        }
        Optional<Answer> answer = best(asker, now, net.get(), wanted, progress);
        if (was.isPresent() && before.isEmpty()) {
            changes.add(change(WantedChange.Kind.NEW, "the earlier design has no such net"));
        }
        before.filter(b -> !b.name().equals(net.get().name()))
                .ifPresent(
                        b ->
                                changes.add(
                                        change(
                                                WantedChange.Kind.RENAMED,
                                                b.name() + " is now " + net.get().name())));
        if (answer.isPresent() && answerBefore.isPresent()) {
            compare(answerBefore.get(), answer.get(), changes);
        }
        return new WantedResult(wanted, net, answer, answerBefore, changes, List.of());
    }

    private NearRegister answered(NearRegister near, WantedNet wanted, Progress progress)
            throws BadInput {
        if (wanted.pads().isEmpty()) {
            return near;
        }
        int pad = NameLookup.requirePad(now, wanted.pads().get(0), "pads");
        Net net = now.findNet(near.net()).orElseThrow();
        return near.answered(
                AnswerKind.of(asker.answer(new Question(now, net, pad, corner), progress)));
    }

    /**
     * The net in the earlier design: by its name, or else by the driver of the present net, which
     * may have got its name since.
     */
    private Optional<Net> earlier(Design earlier, WantedNet wanted) throws BadInput {
        Optional<Net> before = named(earlier, wanted.net());
        return before.isPresent()
                ? before
                : named(now, wanted.net()).flatMap(new NetCounterparts(now, earlier)::find);
    }

    private static Optional<Net> named(Design design, String name) throws BadInput {
        return NameLookup.net(design, name) instanceof NameLookup.Match.None<Net>
                ? Optional.empty()
                : Optional.of(NameLookup.requireNet(design, name, "net"));
    }

    /** The answer for the first pad that is open, or else for the one that lacks least. */
    private Optional<Answer> best(
            Asker by, Design design, Net net, WantedNet wanted, Progress progress) throws BadInput {
        if (wanted.pads().isEmpty()) {
            return Survey.of(design, net, corner, SearchEngineKind.OWN, progress).answers().stream()
                    .findFirst();
        }
        List<Answer> answers = new ArrayList<>();
        for (String name : wanted.pads()) {
            int pad = NameLookup.requirePad(design, name, "pads");
            Answer answer = by.answer(new Question(design, net, pad, corner), progress);
            if (answer instanceof Answer.Open) {
                return Optional.of(answer);
            }
            answers.add(answer);
        }
        return answers.stream().min(Comparator.comparingInt(WantedCheck::lack));
    }

    private static int lack(Answer answer) {
        if (answer instanceof Answer.FreeRoute) {
            return 0;
        }
        return answer instanceof Answer.Blocked blocked
                ? 1 + blocked.obstacles().size()
                : Integer.MAX_VALUE;
    }

    private void compare(Answer before, Answer answer, List<WantedChange> changes) {
        Question asked = before.question();
        String pad = asked.padValue().name();
        boolean samePad = answer.question().padValue().name().equals(pad);
        boolean open = answer instanceof Answer.FreeRoute;
        if (before instanceof Answer.FreeRoute && !open) {
            String blockers = AnswerText.obstacleNames(answer);
            changes.add(
                    change(
                            WantedChange.Kind.NEWLY_BLOCKED,
                            "pad "
                                    + pad
                                    + " had a route; "
                                    + (blockers.isEmpty()
                                            ? "now there is none"
                                            : "now pad "
                                                    + answer.question().padValue().name()
                                                    + " is blocked by "
                                                    + blockers)));
        }
        newPort(asked)
                .ifPresent(
                        p ->
                                changes.add(
                                        change(
                                                WantedChange.Kind.PORT_ON_PAD,
                                                "port " + p.name() + " is now on pad " + pad)));
        if (!samePad && open) {
            changes.add(
                    change(
                            WantedChange.Kind.OTHER_PAD,
                            "pad "
                                    + answer.question().padValue().name()
                                    + " instead of pad "
                                    + pad));
        }
        if (samePad && open && before instanceof Answer.FreeRoute) {
            Delay one = before.findRoute().orElseThrow().total();
            Delay other = answer.findRoute().orElseThrow().total();
            int fast = Math.abs(other.fastPs() - one.fastPs());
            int slow = Math.abs(other.slowPs() - one.slowPs());
            if (Math.max(fast, slow) > morePs) {
                changes.add(
                        change(
                                WantedChange.Kind.DELAY_MOVED,
                                other.toText() + " at the pin instead of " + one.toText()));
            }
        }
    }

    /** A port that the present design alone has on the pad of an earlier question. */
    private Optional<Port> newPort(Question before) {
        OptionalInt pad = PadNames.findExact(now.fabric(), before.padValue().name());
        Optional<String> old = before.design().findPortOn(before.pad()).map(Port::name);
        return pad.isEmpty()
                ? Optional.empty()
                : now.findPortOn(pad.getAsInt()).filter(p -> !old.equals(Optional.of(p.name())));
    }

    private static WantedChange change(WantedChange.Kind kind, String text) {
        return new WantedChange(kind, text);
    }
}
