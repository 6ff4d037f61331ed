package padward.lesson.condition;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.fabric.delay.Corner;

/**
 * The present question names a net, a pad and a corner; an empty member matches anything.
 *
 * @param net the net's name
 * @param pad the pad, by any of its names
 * @param corner the corner
 */
public record QuestionCondition(Optional<String> net, Optional<String> pad, Optional<Corner> corner)
        implements Condition {
    @Override
    public boolean isFulfilled(WindowState state) {
        return state.question().filter(q -> fits(q, state.original())).isPresent();
    }

    private boolean fits(Question question, Design original) {
        return net.map(n -> question.net().name().equals(n)).orElse(true)
                && pad.map(p -> Condition.pads(original, p).contains(question.pad())).orElse(true)
                && corner.map(c -> question.corner() == c).orElse(true);
    }

    @Override
    public String toText() {
        List<String> parts = new ArrayList<>();
        net.ifPresent(n -> parts.add("net " + n));
        pad.ifPresent(p -> parts.add("pad " + p));
        corner.ifPresent(c -> parts.add("the " + c.label() + " corner"));
        return "the question is about " + String.join(", ", parts);
    }

    @Override
    public Optional<String> seen(WindowState state) {
        return Optional.of(
                state.question()
                        .map(
                                q ->
                                        "the question is about "
                                                + q.net().name()
                                                + " on "
                                                + q.padValue().name()
                                                + ", "
                                                + q.corner().label()
                                                + " corner")
                        .orElse("nothing has been asked"));
    }

    @Override
    public List<Missing> missing(Design design) {
        return Condition.missing(design, net.stream().toList(), pad.stream().toList());
    }
}
