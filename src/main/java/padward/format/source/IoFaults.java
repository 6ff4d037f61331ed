package padward.format.source;

import com.google.gson.stream.MalformedJsonException;
import java.io.EOFException;
import java.io.IOException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipException;
import padward.base.BadInput;
import padward.base.ReadFault;

/** Turns failures below the reader into messages for the user. */
public final class IoFaults {
    private static final Pattern WHERE =
            Pattern.compile("(?s)(.*?) at line (\\d+) column (\\d+) path (.*?)(\\n.*)?");

    private IoFaults() {}

    /** What a failure to read means to the user. */
    public static BadInput describe(Source source, IOException fault) {
        String label = source.label();
        if (fault instanceof MalformedJsonException) {
            return malformed(label, String.valueOf(fault.getMessage()));
        }
        if (fault instanceof EOFException) {
            return truncated(label, String.valueOf(fault.getMessage()));
        }
        if (fault instanceof ZipException) {
            return new BadInput(
                    label, "", "gzip data, as its name ends in .gz", "other or damaged data");
        }
        if (fault instanceof BoundedText.TooLong) {
            return new BadInput(label, "", "shorter texts", fault.getMessage());
        }
        return ReadFault.of(label, fault);
    }

    private static BadInput truncated(String label, String message) {
        Matcher where = WHERE.matcher(message);
        String place = where.matches() ? linePlace(where) : "";
        return new BadInput(
                label, place, "more of the file", "its end: it is empty or was cut short");
    }

    private static BadInput malformed(String label, String message) {
        Matcher where = WHERE.matcher(message);
        if (!where.matches()) {
            String first = message.lines().findFirst().orElse("");
            return new BadInput(label, "", "JSON (RFC 8259)", "something else: " + first);
        }
        String what = where.group(1);
        String found =
                what.contains("setStrictness") ? "something else" : "something else: " + what;
        return new BadInput(label, linePlace(where), "JSON (RFC 8259)", found);
    }

    private static String linePlace(Matcher where) {
        return "line " + where.group(2) + " column " + where.group(3) + " (" + where.group(4) + ")";
    }
}
