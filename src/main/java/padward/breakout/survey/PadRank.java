package padward.breakout.survey;

import java.util.Locale;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Price;
import padward.breakout.text.PriceText;

/**
 * Where a pad stands in a survey, and why.
 *
 * @param grade its grade
 * @param reason why, in a few words
 */
public record PadRank(Grade grade, String reason) {
    /** Grades of pads, the best first. */
    public enum Grade {
        /** Nobody uses it, and a lead can be put on it. */
        FREE_WITH_LEAD,
        /** Nobody uses it. */
        FREE,
        /** A port loses it, and nothing on the board is known to listen. */
        TAKES_PORT,
        /** What blocks the route cannot just be removed. */
        LOSES_FUNCTION,
        /** Something on the board will follow the signal. */
        FOLLOWS,
        /** Something on the board drives it, or may drive it. */
        DRIVES,
        /** The package does not connect it, or it is for something else than a design's signals. */
        NOT_OFFERED,
        /** There is no route. */
        NO_ROUTE;

        /** The word in files. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** The rank of an answer. */
    public static PadRank of(Answer answer) {
        if (answer instanceof Answer.NoRoute) {
            return new PadRank(Grade.NO_ROUTE, "no route");
        }
        Price price = Price.ofPad(answer.question());
        String otherUse = answer.question().padValue().use().whyNotOffered();
        if (!otherUse.isEmpty()) {
            return new PadRank(Grade.NOT_OFFERED, joined(otherUse, PriceText.brief(price)));
        }
        if (!price.drives().isEmpty() || price.takesInput()) {
            String who = price.drives().isEmpty() ? "the board may drive it" : "";
            return new PadRank(Grade.DRIVES, joined(who, PriceText.brief(price)));
        }
        if (!price.follows().isEmpty()) {
            return new PadRank(Grade.FOLLOWS, PriceText.brief(price));
        }
        if (answer instanceof Answer.Blocked blocked
                && !blocked.obstacles().stream().allMatch(Obstacle::removable)) {
            return new PadRank(
                    Grade.LOSES_FUNCTION,
                    joined("obstacles may lose function", PriceText.brief(price)));
        }
        if (!price.ports().isEmpty()) {
            boolean known =
                    answer.question()
                            .design()
                            .board()
                            .findWiring(answer.question().pad())
                            .isPresent();
            return new PadRank(
                    Grade.TAKES_PORT,
                    PriceText.brief(price)
                            + " loses it, "
                            + (known ? "nothing listens" : "what listens is not known"));
        }
        boolean lead = answer.question().attached().stream().anyMatch(a -> a.kind().probeable());
        return lead
                ? new PadRank(Grade.FREE_WITH_LEAD, "free, place for a lead")
                : new PadRank(Grade.FREE, "free");
    }

    private static String joined(String one, String other) {
        return one.isEmpty() || other.isEmpty() ? one + other : one + ", " + other;
    }
}
