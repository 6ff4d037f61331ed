package padward.watch.condition;

import java.math.BigInteger;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;

/** When something is so: a function of nets, and of what they were one clock cycle earlier. */
public sealed interface Condition {
    /** Names of the nets that this condition itself names, not those of its parts. */
    default List<String> ownNets() {
        return List.of();
    }

    /** The conditions of which it is made. */
    default List<Condition> parts() {
        return List.of();
    }

    /** Whether it asks what was so a clock cycle earlier, so that it needs a clock. */
    default boolean needsClock() {
        return parts().stream().anyMatch(Condition::needsClock);
    }

    /** Names of all nets in it; sorted. */
    default Set<String> nets() {
        Set<String> all = new TreeSet<>(ownNets());
        parts().forEach(part -> all.addAll(part.nets()));
        return all;
    }

    /** Calls the visitor's method for this sort of condition. */
    <T> T accept(Visitor<T> visitor);

    /**
     * What is done with each sort of condition.
     *
     * @param <T> what comes of it
     */
    interface Visitor<T> {
        /** While a net is high. */
        T visit(High condition);

        /** While a vector compares so with a number. */
        T visit(WithValue condition);

        /** While a vector compares so with another of the same width. */
        T visit(WithVector condition);

        /** While a vector is a number from one to another, both included. */
        T visit(InRange condition);

        /** While a condition is not true. */
        T visit(Not condition);

        /** While all are true. */
        T visit(All condition);

        /** While at least one is true. */
        T visit(Any condition);

        /** In the first clock cycle in which a condition is true after it was not. */
        T visit(Rising condition);

        /** In the first clock cycle in which a condition is not true after it was. */
        T visit(Falling condition);
    }

    /** While a net is high. */
    record High(String net) implements Condition {
        @Override
        public List<String> ownNets() {
            return List.of(net);
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /**
     * While a vector compares so with a number.
     *
     * @param vector the vector
     * @param comparison how
     * @param value the number
     * @param care the bits that matter; not all only where it is compared for equality
     */
    record WithValue(NetVector vector, Comparison comparison, BigInteger value, BigInteger care)
            implements Condition {
        @Override
        public List<String> ownNets() {
            return vector.nets();
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /** While a vector compares so with another of the same width. */
    record WithVector(NetVector vector, Comparison comparison, NetVector other)
            implements Condition {
        @Override
        public List<String> ownNets() {
            return Stream.concat(vector.nets().stream(), other.nets().stream()).toList();
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /** While a vector is a number from one to another, both included. */
    record InRange(NetVector vector, BigInteger least, BigInteger greatest) implements Condition {
        @Override
        public List<String> ownNets() {
            return vector.nets();
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /** While a condition is not true. */
    record Not(Condition condition) implements Condition {
        @Override
        public List<Condition> parts() {
            return List.of(condition);
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /** While all are true. */
    record All(List<Condition> conditions) implements Condition {
        /** Copies the list. */
        public All {
            conditions = List.copyOf(conditions);
        }

        @Override
        public List<Condition> parts() {
            return conditions;
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /** While at least one is true. */
    record Any(List<Condition> conditions) implements Condition {
        /** Copies the list. */
        public Any {
            conditions = List.copyOf(conditions);
        }

        @Override
        public List<Condition> parts() {
            return conditions;
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /** In the first clock cycle in which a condition is true after it was not. */
    record Rising(Condition condition) implements Condition {
        @Override
        public List<Condition> parts() {
            return List.of(condition);
        }

        @Override
        public boolean needsClock() {
            return true;
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }

    /** In the first clock cycle in which a condition is not true after it was. */
    record Falling(Condition condition) implements Condition {
        @Override
        public List<Condition> parts() {
            return List.of(condition);
        }

        @Override
        public boolean needsClock() {
            return true;
        }

        @Override
        public <T> T accept(Visitor<T> visitor) {
            return visitor.visit(this);
        }
    }
}
