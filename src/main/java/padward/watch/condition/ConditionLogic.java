package padward.watch.condition;

import java.math.BigInteger;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.watch.logic.CircuitBuilder;
import padward.watch.logic.LogicGraph;
import padward.watch.logic.Magnitudes;

/** Adds conditions to a circuit as logic, with registers for what was so one cycle earlier. */
public final class ConditionLogic implements Condition.Visitor<Integer> {
    private final CircuitBuilder builder;
    private final LogicGraph logic;
    private final Optional<String> clock;
    private final Magnitudes magnitudes;
    private final Map<Integer, Integer> earlier = new HashMap<>();

    /**
     * For one circuit.
     *
     * @param clock name of the clock net; only conditions that ask for an earlier cycle need it
     */
    public ConditionLogic(CircuitBuilder builder, Optional<String> clock) {
        this.builder = builder;
        this.logic = builder.logic();
        this.magnitudes = builder.magnitudes();
        this.clock = clock;
    }

    /** A condition as a literal. */
    public int add(Condition condition) {
        return condition.accept(this);
    }

    /** What a literal was one clock cycle earlier. */
    public int earlier(int literal) {
        return earlier.computeIfAbsent(
                literal,
                l -> builder.registered("earlier[" + earlier.size() + "]", clock.orElseThrow(), l));
    }

    @Override
    public Integer visit(Condition.High condition) {
        return builder.net(condition.net());
    }

    @Override
    public Integer visit(Condition.WithValue condition) {
        List<Integer> bits = bits(condition.vector());
        return switch (condition.comparison()) {
            case EQUAL -> magnitudes.equal(bits, condition.value(), condition.care());
            case DIFFERENT ->
                    LogicGraph.not(magnitudes.equal(bits, condition.value(), condition.care()));
            case LESS -> magnitudes.less(bits, condition.value());
            case AT_LEAST -> LogicGraph.not(magnitudes.less(bits, condition.value()));
            case AT_MOST -> magnitudes.less(bits, condition.value().add(BigInteger.ONE));
            case GREATER ->
                    LogicGraph.not(magnitudes.less(bits, condition.value().add(BigInteger.ONE)));
        };
    }

    @Override
    public Integer visit(Condition.WithVector condition) {
        List<Integer> one = bits(condition.vector());
        List<Integer> other = bits(condition.other());
        return switch (condition.comparison()) {
            case EQUAL -> magnitudes.equal(one, other);
            case DIFFERENT -> LogicGraph.not(magnitudes.equal(one, other));
            case LESS -> magnitudes.less(one, other);
            case AT_LEAST -> LogicGraph.not(magnitudes.less(one, other));
            case GREATER -> magnitudes.less(other, one);
            case AT_MOST -> LogicGraph.not(magnitudes.less(other, one));
        };
    }

    @Override
    public Integer visit(Condition.InRange condition) {
        List<Integer> bits = bits(condition.vector());
        return logic.and(
                LogicGraph.not(magnitudes.less(bits, condition.least())),
                magnitudes.less(bits, condition.greatest().add(BigInteger.ONE)));
    }

    @Override
    public Integer visit(Condition.Not condition) {
        return LogicGraph.not(add(condition.condition()));
    }

    @Override
    public Integer visit(Condition.All condition) {
        return builder.many().all(condition.conditions().stream().map(this::add).toList());
    }

    @Override
    public Integer visit(Condition.Any condition) {
        return builder.many().any(condition.conditions().stream().map(this::add).toList());
    }

    @Override
    public Integer visit(Condition.Rising condition) {
        return rising(add(condition.condition()));
    }

    @Override
    public Integer visit(Condition.Falling condition) {
        return rising(LogicGraph.not(add(condition.condition())));
    }

    /** Whether a literal is high and was not one cycle earlier. */
    public int rising(int literal) {
        // one register for both edges of a literal
        int positive = literal & ~1;
        int before = earlier(positive) ^ literal & 1;
        return logic.and(literal, LogicGraph.not(before));
    }

    private List<Integer> bits(NetVector vector) {
        return vector.nets().stream().map(builder::net).toList();
    }
}
