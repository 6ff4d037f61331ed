package padward.lesson.exercise;

import java.util.List;
import java.util.Locale;
import padward.base.BadInput;

/**
 * A question to a learner, with the calculated right answer. The same design, kind, difficulty and
 * seed give the same exercise.
 *
 * @param kind what it asks
 * @param difficulty how hard it is
 * @param seed its seed
 * @param net name of the net in question
 * @param text the question
 * @param facts facts given together with the question
 * @param truth the right answer
 * @param explanation why it is right
 */
public record Exercise(
        ExerciseKind kind,
        Difficulty difficulty,
        long seed,
        String net,
        String text,
        List<String> facts,
        Truth truth,
        String explanation) {
    /** Copies the facts. */
    public Exercise {
        facts = List.copyOf(facts);
    }

    /** The right answer, of one of two kinds. */
    public sealed interface Truth {
        /**
         * One of several choices.
         *
         * @param choices names of what can be chosen
         * @param remarks a remark on each; an empty text for none
         * @param right index of the right one
         */
        record OneOf(List<String> choices, List<String> remarks, int right) implements Truth {
            /** Copies the lists. */
            public OneOf {
                choices = List.copyOf(choices);
                remarks = List.copyOf(remarks);
            }
        }

        /**
         * A delay.
         *
         * @param ps the delay, picoseconds
         * @param tolerancePs how far an estimate may be off, picoseconds
         */
        record About(int ps, int tolerancePs) implements Truth {}
    }

    /**
     * The verdict on an answer.
     *
     * @param right whether it is right
     * @param text the verdict and the explanation, for the learner
     */
    public record Mark(boolean right, String text) {}

    /**
     * Marks an answer: the number or the name of a choice, or a delay in nanoseconds.
     *
     * @param source name of the place where the answer was given, for error messages
     * @throws BadInput when the text is not an answer
     */
    public Mark mark(String answer, String source) throws BadInput {
        return truth instanceof Truth.OneOf oneOf
                ? markChoice(oneOf, answer.strip(), source)
                : markDelay((Truth.About) truth, answer.strip(), source);
    }

    private Mark markChoice(Truth.OneOf oneOf, String answer, String source) throws BadInput {
        int chosen = oneOf.choices().indexOf(answer);
        for (int i = 0; chosen < 0 && i < oneOf.choices().size(); i++) {
            if (answer.equals(String.valueOf(i + 1))) {
                chosen = i;
            }
        }
        if (chosen < 0) {
            throw new BadInput(
                    source,
                    "",
                    "a number from 1 to "
                            + oneOf.choices().size()
                            + ", or a name among the choices",
                    "“" + answer + "”");
        }
        boolean right = chosen == oneOf.right();
        String verdict =
                right
                        ? "Right: " + oneOf.choices().get(chosen) + ". "
                        : "Not "
                                + oneOf.choices().get(chosen)
                                + ", but "
                                + oneOf.choices().get(oneOf.right())
                                + ". ";
        return new Mark(right, verdict + explanation);
    }

    private Mark markDelay(Truth.About about, String answer, String source) throws BadInput {
        double given;
        try {
            given = Double.parseDouble(answer.replaceAll("(?i)\\s*ns$", ""));
        } catch (NumberFormatException fault) {
            given = Double.NaN;
        }
        if (!(given >= 0 && given < 1e6)) {
            throw new BadInput(source, "", "a delay in ns, such as 3.98", "“" + answer + "”");
        }
        double off = given * 1000 - about.ps();
        boolean right = Math.abs(off) <= about.tolerancePs();
        String verdict =
                String.format(
                        Locale.ROOT,
                        "%s: it is %.3f ns, you said %.3f ns; up to %.3f ns off counts as right. ",
                        right ? "Right" : "Too far off",
                        about.ps() / 1000.0,
                        given,
                        about.tolerancePs() / 1000.0);
        return new Mark(right, verdict + explanation);
    }
}
