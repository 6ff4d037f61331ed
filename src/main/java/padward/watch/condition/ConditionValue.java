package padward.watch.condition;

import java.math.BigInteger;
import java.util.function.Predicate;

/**
 * The value of a condition for given levels, straight from its meaning and without any circuit. Not
 * for conditions that ask what was so a cycle earlier.
 *
 * @param level the level of a net, by its full name
 */
public record ConditionValue(Predicate<String> level) implements Condition.Visitor<Boolean> {
    /**
     * Whether a condition is true.
     *
     * @throws IllegalArgumentException when it needs a clock
     */
    public boolean of(Condition condition) {
        return condition.accept(this);
    }

    private BigInteger number(NetVector vector) {
        BigInteger value = BigInteger.ZERO;
        for (int i = 0; i < vector.nets().size(); i++) {
            value = level.test(vector.nets().get(i)) ? value.setBit(i) : value;
        }
        return value;
    }

    private static boolean compare(BigInteger one, Comparison how, BigInteger other) {
        int order = one.compareTo(other);
        return switch (how) {
            case EQUAL -> order == 0;
            case DIFFERENT -> order != 0;
            case LESS -> order < 0;
            case AT_MOST -> order <= 0;
            case GREATER -> order > 0;
            case AT_LEAST -> order >= 0;
        };
    }

    @Override
    public Boolean visit(Condition.High condition) {
        return level.test(condition.net());
    }

    @Override
    public Boolean visit(Condition.WithValue condition) {
        return compare(
                number(condition.vector()).and(condition.care()),
                condition.comparison(),
                condition.value().and(condition.care()));
    }

    @Override
    public Boolean visit(Condition.WithVector condition) {
        return compare(
                number(condition.vector()), condition.comparison(), number(condition.other()));
    }

    @Override
    public Boolean visit(Condition.InRange condition) {
        BigInteger now = number(condition.vector());
        return now.compareTo(condition.least()) >= 0 && now.compareTo(condition.greatest()) <= 0;
    }

    @Override
    public Boolean visit(Condition.Not condition) {
        return !of(condition.condition());
    }

    @Override
    public Boolean visit(Condition.All condition) {
        return condition.conditions().stream().allMatch(this::of);
    }

    @Override
    public Boolean visit(Condition.Any condition) {
        return condition.conditions().stream().anyMatch(this::of);
    }

    @Override
    public Boolean visit(Condition.Rising condition) {
        throw new IllegalArgumentException("a condition that compares cycles");
    }

    @Override
    public Boolean visit(Condition.Falling condition) {
        throw new IllegalArgumentException("a condition that compares cycles");
    }
}
