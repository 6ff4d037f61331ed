package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.WrittenKinds.delay;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.whole;
import static padward.format.form.WrittenKinds.word;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.NearbySignal;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.WhyText;
import padward.change.Edit;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Kinds;
import padward.format.form.Schema;
import padward.format.json.EnumWords;
import padward.unblock.move.Consequence;
import padward.unblock.move.DelayChange;
import padward.unblock.release.LostEndpoint;
import padward.unblock.weigh.Removal;
import padward.unblock.why.Chokepoint;

/** The forms of explanations. */
final class WhyForm {
    private WhyForm() {}

    /** An option to unblock, with the answer that it belongs to. */
    private record Unblocking(Answer.Blocked blocked, WhyBlocked.Option option) {}

    /** A removal of an option, with the obstacle that it removes. */
    private record Step(Answer.Blocked blocked, Removal removal, Obstacle obstacle) {
        Optional<Consequence.Movable> movable() {
            return removal.consequence() instanceof Consequence.Movable m
                    ? Optional.of(m)
                    : Optional.empty();
        }

        Optional<List<String>> lost() {
            return removal.consequence() instanceof Consequence.LosesFunction loses
                    ? Optional.of(loses.lost().stream().map(LostEndpoint::toText).toList())
                    : Optional.empty();
        }

        String word() {
            return movable().isPresent()
                    ? "movable"
                    : lost().isPresent() ? "loses-function" : "removable";
        }
    }

    /** The explanation of a blocked answer. */
    static Form<Answer.Blocked> explanation() {
        var why = new Fields<Answer.Blocked>();
        why.needed("provenMinimum", Kinds.flag(), b -> of(b).explanation().provenFewest())
                .means("whether fewer obstacles cannot do");
        why.needed("lowerBound", whole(), b -> of(b).explanation().atLeast())
                .means("how many have to go at the least");
        why.needed("chokepoints", list(chokepoint()), b -> of(b).explanation().chokepoints())
                .means("what every route passes");
        why.needed(
                        "oneOfThese",
                        list(RouteForm.occupant()),
                        b -> List.copyOf(of(b).explanation().oneOfThese()))
                .means("every route passes something that one of these uses");
        why.needed(
                        "options",
                        list(option()),
                        b -> of(b).options().stream().map(o -> new Unblocking(b, o)).toList())
                .means("options to unblock, best first");
        return why.written();
    }

    private static WhyBlocked of(Answer.Blocked blocked) {
        return blocked.why().orElseThrow();
    }

    /** What every route passes. */
    static Form<Chokepoint> chokepoint() {
        var chokepoint = new Fields<Chokepoint>();
        chokepoint.needed("resource", text(), Chokepoint::resource).means("its name");
        chokepoint.needed("resourceKind", text(), Chokepoint::resourceKind).means("what it is");
        chokepoint
                .maybe("usedBy", RouteForm.occupant(), Chokepoint::occupant)
                .means("what uses it");
        return chokepoint.written();
    }

    private static Form<Unblocking> option() {
        var option = new Fields<Unblocking>();
        option.needed("obstacles", list(step()), WhyForm::steps).means("what is removed or moved");
        option.needed(
                        "edits",
                        texts(),
                        w ->
                                w.option().option().edits(w.blocked().disconnected()).stream()
                                        .map(Edit::toText)
                                        .toList())
                .means("the edits in words");
        RouteForm.addRoute(option, w -> Optional.of(w.option().route()));
        return option.written();
    }

    private static List<Step> steps(Unblocking one) {
        List<Step> steps = new ArrayList<>();
        List<Removal> removals = one.option().option().removals();
        for (int i = 0; i < removals.size(); i++) {
            steps.add(new Step(one.blocked(), removals.get(i), one.option().obstacles().get(i)));
        }
        return steps;
    }

    private static Form<Step> step() {
        List<String> means = Stream.of(Consequence.Means.values()).map(EnumWords::of).toList();
        var step = new Fields<Step>();
        RouteForm.addObstacle(step, Step::obstacle);
        step.needed("onEveryRoute", Kinds.flag(), s -> s.removal().onEveryRoute())
                .means("whether every route needs it removed");
        step.needed(
                        "consequence",
                        word(List.of("removable", "movable", "loses-function")),
                        Step::word)
                .means("what its removal means");
        step.maybe("means", word(means), s -> s.movable().map(m -> EnumWords.of(m.means())))
                .means("how it makes room");
        step.maybe(
                        "delayChanges",
                        list(delayChange()),
                        s -> s.movable().map(Consequence.Movable::delayChanges))
                .means("what the move does to delays");
        step.needed("wouldLoseSignal", lost(), s -> s)
                .means("which endpoints lose their signal, or how many would if it is not moved");
        step.needed("sentence", text(), s -> WhyText.consequence(s.blocked(), s.removal()))
                .means("in words");
        return step.written();
    }

    /** Names where it is known which; otherwise their number. */
    private static Kind<Step> lost() {
        return Kind.of(
                in -> {
                    throw new UnsupportedOperationException("answers are not read");
                },
                (out, step) -> {
                    if (step.lost().isPresent()) {
                        texts().write(out, step.lost().get());
                    } else {
                        out.value(step.obstacle().wouldLose());
                    }
                },
                () -> Schema.oneOf(List.of(texts().schema(), whole().schema())));
    }

    private static Form<DelayChange> delayChange() {
        var change = new Fields<DelayChange>();
        change.needed("net", text(), DelayChange::net).means("the net");
        change.needed("sink", text(), DelayChange::sink).means("its sink");
        change.needed("before_ps", delay(), DelayChange::before).means("delay before");
        change.needed("after_ps", delay(), DelayChange::after).means("delay after");
        change.optional("earlierSink", text(), "", c -> c.earlierPs() > 0 ? c.earlierSink() : "")
                .means("the sink that gets earlier most");
        change.maybe(
                        "earlier_ps",
                        whole(),
                        c ->
                                c.earlierPs() > 0
                                        ? OptionalInt.of(c.earlierPs())
                                        : OptionalInt.empty())
                .means("by how much, at the fast corner");
        change.maybe("slackBefore_ps", whole(), DelayChange::slackBeforePs).means("slack before");
        change.maybe("slackAfter_ps", whole(), DelayChange::slackAfterPs).means("slack after");
        return change.written();
    }

    /** A signal near one that has no route. */
    static Form<NearbySignal> nearby() {
        var nearby = new Fields<NearbySignal>();
        nearby.needed("net", text(), n -> n.net().name()).means("its net");
        nearby.needed("difference", text(), NearbySignal::difference).means("what sets it apart");
        nearby.needed(
                        "answer",
                        Kinds.choice(AnswerKind.values(), AnswerKind::label),
                        n -> AnswerKind.of(n.answer()))
                .means("whether it has a route");
        return nearby.written();
    }
}
