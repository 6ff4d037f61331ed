package padward.ui.control;

import java.util.Comparator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Orders table cells by the number at the beginning; cells without one come last. */
public final class LeadingNumberOrder {
    private static final Pattern NUMBER = Pattern.compile("^\\d+(\\.\\d+)?");

    /** The order. */
    public static final Comparator<String> ORDER =
            Comparator.comparingDouble(LeadingNumberOrder::number);

    private LeadingNumberOrder() {}

    private static double number(String text) {
        Matcher found = NUMBER.matcher(text);
        return found.find() ? Double.parseDouble(found.group()) : Double.MAX_VALUE;
    }
}
