package padward.format.form;

import java.util.List;

/** The value of a keyword in a schema. */
sealed interface SchemaRule
        permits Schema, SchemaRule.Text, SchemaRule.Number, SchemaRule.Truth, SchemaRule.Several {

    /** The value in a notation. */
    <J> J in(Notation<J> notation);

    /**
     * How each sort of value is put down.
     *
     * @param <J> what it is put down as
     */
    interface Notation<J> {
        /** A text. */
        J text(String text);

        /** A number. */
        J number(java.lang.Number number);

        /** A truth value. */
        J truth(boolean truth);

        /** Several values, in order. */
        J several(List<? extends SchemaRule> values);

        /** A schema. */
        J schema(Schema schema);
    }

    /** A text. */
    record Text(String text) implements SchemaRule {
        @Override
        public <J> J in(Notation<J> notation) {
            return notation.text(text);
        }
    }

    /** A number. */
    record Number(java.lang.Number number) implements SchemaRule {
        @Override
        public <J> J in(Notation<J> notation) {
            return notation.number(number);
        }
    }

    /** A truth value. */
    record Truth(boolean truth) implements SchemaRule {
        @Override
        public <J> J in(Notation<J> notation) {
            return notation.truth(truth);
        }
    }

    /** Several values, in order. */
    record Several(List<? extends SchemaRule> values) implements SchemaRule {
        /** Copies the list. */
        public Several {
            values = List.copyOf(values);
        }

        @Override
        public <J> J in(Notation<J> notation) {
            return notation.several(values);
        }
    }
}
