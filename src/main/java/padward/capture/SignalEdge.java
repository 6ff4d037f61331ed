package padward.capture;

/** Which way a channel changes, as far as that decides how late the change is. */
public enum SignalEdge {
    /** From 0 to 1, on the pad. */
    TO_HIGH,
    /** From 1 to 0, on the pad. */
    TO_LOW,
    /** Any other change, such as one from an unknown value, or of several bits. */
    EITHER;

    /** The edge between two values of one bit. */
    static SignalEdge between(String before, String now) {
        String from = level(before);
        String to = level(now);
        if (from.equals("0") && to.equals("1")) {
            return TO_HIGH;
        }
        return from.equals("1") && to.equals("0") ? TO_LOW : EITHER;
    }

    /** A value of one bit, written as a scalar or as a vector. */
    static String level(String value) {
        return value.length() > 1 && Character.toLowerCase(value.charAt(0)) == 'b'
                ? value.substring(1)
                : value;
    }
}
