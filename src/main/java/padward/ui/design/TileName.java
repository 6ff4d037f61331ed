package padward.ui.design;

import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.fabric.Fabric;

/** The name of a tile, which says where it is: {@code x3y1} is in column 3 of row 1. */
public final class TileName {
    private static final Pattern NAME = Pattern.compile("x(\\d{1,6})y(\\d{1,6})");

    private TileName() {}

    /** The tile of a fabric with that name; empty when there is none. O(1). */
    public static OptionalInt find(Fabric fabric, String name) {
        Matcher parts = NAME.matcher(name);
        if (!parts.matches()) {
            return OptionalInt.empty();
        }
        int column = Integer.parseInt(parts.group(1));
        int row = Integer.parseInt(parts.group(2));
        return column >= fabric.columns() || row >= fabric.rows()
                ? OptionalInt.empty()
                : OptionalInt.of(row * fabric.columns() + column);
    }
}
