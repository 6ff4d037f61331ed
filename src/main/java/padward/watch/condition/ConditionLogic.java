package padward.watch.condition;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.watch.logic.CircuitBuilder;
import padward.watch.logic.LogicGraph;

/** Adds conditions to a circuit as logic, with registers for what was so one cycle earlier. */
public final class ConditionLogic implements Condition.Visitor<Integer> {
    private final CircuitBuilder builder;
    private final LogicGraph logic;
    private final Optional<String> clock;
    private final Map<Integer, Integer> earlier = new HashMap<>();

    /**
     * For one circuit.
     *
     * @param clock name of the clock net; only conditions that ask for an earlier cycle need it
     */
    public ConditionLogic(CircuitBuilder builder, Optional<String> clock) {
        this.builder = builder;
        this.logic = builder.logic();
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
            case EQUAL -> equal(bits, condition.value(), condition.care());
            case DIFFERENT -> LogicGraph.not(equal(bits, condition.value(), condition.care()));
            case LESS -> less(bits, condition.value());
            case AT_LEAST -> LogicGraph.not(less(bits, condition.value()));
            case AT_MOST -> less(bits, condition.value().add(BigInteger.ONE));
            case GREATER -> LogicGraph.not(less(bits, condition.value().add(BigInteger.ONE)));
        };
    }

    private int equal(List<Integer> bits, BigInteger value, BigInteger care) {
        List<Integer> needed = new ArrayList<>();
        for (int i = 0; i < bits.size(); i++) {
            if (care.testBit(i)) {
                needed.add(value.testBit(i) ? bits.get(i) : LogicGraph.not(bits.get(i)));
            }
        }
        return builder.many().all(needed);
    }

    /** Whether a vector is less than a number, from the lowest bit on. */
    private int less(List<Integer> bits, BigInteger value) {
        if (value.bitLength() > bits.size()) {
            return LogicGraph.HIGH;
        }
        int less = LogicGraph.LOW;
        for (int i = 0; i < bits.size(); i++) {
            int low = LogicGraph.not(bits.get(i));
            less = value.testBit(i) ? logic.or(low, less) : logic.and(low, less);
        }
        return less;
    }

    @Override
    public Integer visit(Condition.WithVector condition) {
        List<Integer> one = bits(condition.vector());
        List<Integer> other = bits(condition.other());
        return switch (condition.comparison()) {
            case EQUAL -> equal(one, other);
            case DIFFERENT -> LogicGraph.not(equal(one, other));
            case LESS -> less(one, other);
            case AT_LEAST -> LogicGraph.not(less(one, other));
            case GREATER -> less(other, one);
            case AT_MOST -> LogicGraph.not(less(other, one));
        };
    }

    private int equal(List<Integer> one, List<Integer> other) {
        return builder.many()
                .all(
                        IntStream.range(0, one.size())
                                .mapToObj(i -> LogicGraph.not(logic.xor(one.get(i), other.get(i))))
                                .toList());
    }

    /** Whether one vector is less than another, from the lowest bit on. */
    private int less(List<Integer> one, List<Integer> other) {
        int less = LogicGraph.LOW;
        for (int i = 0; i < one.size(); i++) {
            int differ = logic.xor(one.get(i), other.get(i));
            less = logic.choose(differ, other.get(i), less);
        }
        return less;
    }

    @Override
    public Integer visit(Condition.InRange condition) {
        List<Integer> bits = bits(condition.vector());
        return logic.and(
                LogicGraph.not(less(bits, condition.least())),
                less(bits, condition.greatest().add(BigInteger.ONE)));
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

    private List<Integer> bits(Vector vector) {
        return vector.nets().stream().map(builder::net).toList();
    }
}
