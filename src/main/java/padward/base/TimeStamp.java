package padward.base;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;

/** Times as files and lists state them. */
public final class TimeStamp {
    private TimeStamp() {}

    /** The present time, to the second, with its offset from UTC (ISO 8601). */
    public static String now() {
        return text(OffsetDateTime.now());
    }

    /** Seconds are always written, also when they are 0. */
    static String text(OffsetDateTime time) {
        return DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(time.truncatedTo(ChronoUnit.SECONDS));
    }
}
