package padward.api;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.breakout.text.WhyText;
import padward.change.Edit;
import padward.fabric.delay.Delay;
import padward.unblock.weigh.Removal;

/** The answer to whether a net gets out to a pad. */
public final class Finding {
    private final Answer answer;

    Finding(Answer answer) {
        this.answer = answer;
    }

    /** Which sort of answer it is. */
    public enum Kind {
        /** A route exists and costs the design nothing. */
        OPEN,
        /** A route exists, but a port loses its pad. */
        TAKES_PORT,
        /** A route exists once something is removed. */
        BLOCKED,
        /** There is no route, whatever other nets and cells are removed. */
        NO_ROUTE
    }

    Answer answer() {
        return answer;
    }

    private Question question() {
        return answer.question();
    }

    /** Which sort of answer it is. */
    public Kind kind() {
        if (answer instanceof Answer.Open) {
            return Kind.OPEN;
        }
        if (answer instanceof Answer.TakesPort) {
            return Kind.TAKES_PORT;
        }
        return answer instanceof Answer.Blocked ? Kind.BLOCKED : Kind.NO_ROUTE;
    }

    /** The answer in words. */
    public String sentence() {
        return AnswerText.sentence(answer);
    }

    /** The net. */
    public FoundNet net() {
        return Values.net(question().design(), question().net());
    }

    /** The pad. */
    public FoundPad pad() {
        return Values.pad(question().design(), question().pad());
    }

    /** From the net's driver to the pin, at the driver's rated load. */
    public Optional<DelayRange> delay() {
        return answer.findRoute().map(r -> Values.delay(r.total()));
    }

    /** The route, of the best option where it is blocked; empty where there is none. */
    public List<RouteStep> route() {
        return answer.findRoute()
                .map(r -> r.hops().stream().map(Values::step).toList())
                .orElse(List.of());
    }

    /** The options to unblock, best first; only of an answer to {@code ask}. */
    public List<Unblocking> options() {
        List<Unblocking> result = new ArrayList<>();
        if (answer instanceof Answer.Blocked blocked && blocked.why().isPresent()) {
            for (WhyBlocked.Option option : blocked.why().get().options()) {
                List<Removal> removals = option.option().removals();
                Delay total = option.route().total();
                result.add(
                        new Unblocking(
                                removals.stream().map(r -> WhyText.who(r.occupant())).toList(),
                                removals.stream()
                                        .map(r -> WhyText.consequence(blocked, r))
                                        .toList(),
                                option.option().edits(blocked.disconnected()).stream()
                                        .map(Edit::toText)
                                        .toList(),
                                Values.delay(total)));
            }
        }
        return List.copyOf(result);
    }

    /** Whether it is proven that no option needs fewer obstacles than the first. */
    public boolean isProvenFewest() {
        return answer instanceof Answer.Blocked blocked
                && blocked.why().filter(w -> w.explanation().provenFewest()).isPresent();
    }

    /** What it costs, in sentences; empty where there is no route. */
    public String cost() {
        return answer instanceof Answer.NoRoute ? "" : PriceText.sentences(Price.of(answer));
    }

    /** The words that have to be accepted before it can be kept. */
    public List<String> toAccept() {
        return PriceText.words(Price.ofPad(question()).toAccept());
    }

    /** The cautions, the gravest first. */
    public List<Caution> cautions() {
        return answer.cautions().stream().map(Values::caution).toList();
    }

    /** The sentence. */
    @Override
    public String toString() {
        return sentence();
    }
}
