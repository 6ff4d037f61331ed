package padward.format.source;

import java.util.stream.Stream;
import padward.base.NearestName;

/** Misspelt names in faults of files, with the known name that was probably meant. */
public final class Nearest {
    private Nearest() {}

    /** {@code "abd" (did you mean "abc"?)}, or only the first part when nothing is similar. */
    public static String describe(String name, Stream<String> known) {
        return Text.quote(name)
                + NearestName.find(name, known)
                        .map(n -> " (did you mean " + Text.quote(n) + "?)")
                        .orElse("");
    }
}
