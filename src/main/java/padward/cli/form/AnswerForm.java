package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.word;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.Caution;
import padward.breakout.ask.NoRouteReason;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.survey.PadRank;
import padward.breakout.text.AnswerText;
import padward.breakout.text.WhyText;
import padward.design.Design;
import padward.design.Port;
import padward.fabric.delay.Corner;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kinds;
import padward.format.form.WrittenKinds;
import padward.format.json.EnumWords;
import padward.unblock.release.DisconnectedBranch;

/** The form of an answer. */
public final class AnswerForm {
    private static final String UNDECIDED = "undecided";

    private AnswerForm() {}

    /**
     * An answer as it is printed.
     *
     * @param question what was asked
     * @param word which sort of answer it is
     * @param sentence the answer in words
     * @param answer the answer; empty when the search was stopped
     * @param rank its rank among others, in a survey
     */
    public record Given(
            Question question,
            String word,
            String sentence,
            Optional<Answer> answer,
            Optional<PadRank> rank) {
        /** An answer. */
        public static Given of(Answer answer) {
            return new Given(
                    answer.question(),
                    AnswerKind.of(answer).label(),
                    AnswerText.sentence(answer),
                    Optional.of(answer),
                    Optional.empty());
        }

        /** An answer of a survey. */
        public static Given ranked(Answer answer) {
            Given given = of(answer);
            return new Given(
                    given.question(),
                    given.word(),
                    given.sentence(),
                    given.answer(),
                    Optional.of(PadRank.of(answer)));
        }

        /** A question whose search was stopped. */
        public static Given undecided(Question question, String sentence) {
            return new Given(question, UNDECIDED, sentence, Optional.empty(), Optional.empty());
        }

        private <A> Optional<A> as(Class<A> type) {
            return answer.filter(type::isInstance).map(type::cast);
        }

        private Optional<Gone> disconnected() {
            Design design = question.design();
            return answer.flatMap(Answer::disconnected).map(b -> new Gone(b, design));
        }
    }

    /** A branch that is disconnected, and of which design. */
    private record Gone(DisconnectedBranch branch, Design design) {
        List<String> vertices() {
            return branch.vertices().stream().map(design.fabric()::vertexName).toList();
        }
    }

    private static List<String> words() {
        return Stream.concat(
                        Stream.of(AnswerKind.values()).map(AnswerKind::label), Stream.of(UNDECIDED))
                .toList();
    }

    private static List<String> reasons() {
        return Stream.of(NoRouteReason.values()).map(EnumWords::of).toList();
    }

    /** The form of answers without explanation, route and cautions. */
    public static Form<Given> brief() {
        var given = new Fields<Given>();
        given.constant("format", "padward-brief-answer/1");
        given.needed("answer", word(words()), Given::word).means("which sort of answer it is");
        given.needed("net", text(), g -> g.question().net().name()).means("the net");
        given.needed("pad", text(), g -> g.question().padValue().name()).means("the pad");
        given.needed(
                        "corner",
                        Kinds.choice(Corner.values(), Corner::label),
                        g -> g.question().corner())
                .means("at which the route has the shortest delay");
        given.maybe(
                        "delay_ps",
                        WrittenKinds.delay(),
                        g -> g.answer().flatMap(Answer::findRoute).map(Route::total))
                .means("from the net's driver to the pin");
        given.maybe("losesPad", text(), g -> g.question().losingPort().map(Port::name))
                .means("the port that loses its pad");
        given.maybe(
                        "obstacles",
                        texts(),
                        g -> g.as(Answer.Blocked.class).map(AnswerForm::obstacles))
                .means("blocked: removing these opens a route; they need not be the fewest");
        given.maybe(
                        "reason",
                        word(reasons()),
                        g -> g.as(Answer.NoRoute.class).map(n -> EnumWords.of(n.reason())))
                .means("no route: why");
        return given.written();
    }

    private static List<String> obstacles(Answer.Blocked blocked) {
        return blocked.obstacles().stream().map(o -> WhyText.who(o.occupant())).toList();
    }

    /** The form of answers and of those in surveys. */
    public static Form<Given> answer() {
        var given = new Fields<Given>();
        given.constant("format", "padward-answer/1");
        given.needed("answer", word(words()), Given::word).means("which sort of answer it is");
        given.needed("sentence", text(), Given::sentence).means("the answer in words");
        given.needed("net", text(), g -> g.question().net().name()).means("the net");
        given.needed("pad", text(), g -> g.question().padValue().name()).means("the pad");
        given.needed("packagePin", text(), g -> g.question().padValue().packagePin())
                .means("its package pin");
        given.needed(
                        "corner",
                        Kinds.choice(Corner.values(), Corner::label),
                        g -> g.question().corner())
                .means("at which the route has the shortest delay");
        given.maybe(
                        "obstacles",
                        list(RouteForm.obstacle()),
                        g -> g.as(Answer.Blocked.class).map(Answer.Blocked::obstacles))
                .means("blocked: what stands on the best route");
        RouteForm.addRoute(given, g -> g.answer().flatMap(Answer::findRoute));
        given.optional(
                        "chokepoints",
                        list(WhyForm.chokepoint()),
                        List.of(),
                        g ->
                                g.as(Answer.FreeRoute.class)
                                        .map(Answer.FreeRoute::chokepoints)
                                        .orElse(List.of()))
                .means("what every free route passes");
        given.maybe(
                        "why",
                        WhyForm.explanation(),
                        g -> g.as(Answer.Blocked.class).filter(b -> b.why().isPresent()))
                .means("blocked: the explanation");
        given.maybe(
                        "reason",
                        word(reasons()),
                        g -> g.as(Answer.NoRoute.class).map(n -> EnumWords.of(n.reason())))
                .means("no route: why");
        given.maybe(
                        "nearby",
                        list(WhyForm.nearby()),
                        g -> g.as(Answer.NoRoute.class).map(Answer.NoRoute::nearby))
                .means("no route: nearby signals that have one");
        given.maybe("disconnected", gone(), Given::disconnected)
                .means("what is disconnected with the port that loses its pad");
        given.maybe(
                        "price",
                        PriceForm.price(),
                        g -> g.answer().filter(a -> !(a instanceof Answer.NoRoute)).map(Price::of))
                .means("what it costs");
        PriceForm.addCautions(given, g -> g.answer().map(AnswerForm::cautions));
        given.maybe(
                        "rank",
                        Kinds.choice(PadRank.Grade.values(), PadRank.Grade::label),
                        g -> g.rank().map(PadRank::grade))
                .means("in a survey: its rank");
        given.maybe("rankReason", text(), g -> g.rank().map(PadRank::reason))
                .means("in a survey: why");
        return given.written();
    }

    private static List<Caution> cautions(Answer answer) {
        return answer.cautions();
    }

    private static Form<Gone> gone() {
        var gone = new Fields<Gone>();
        gone.needed("port", text(), g -> g.branch().port().name()).means("the port");
        gone.needed("net", text(), g -> g.branch().net().name()).means("its net");
        gone.needed("vertices", texts(), Gone::vertices).means("what served only this port");
        return gone.written();
    }
}
