package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.fabric.Fabric;
import padward.ui.design.OpenDesign;
import padward.ui.model.Suggestions;

/** Offers pads by their names, and tiles by where they are, which no list of names has. */
final class PlaceOffers {
    /** The beginning of a tile's name: the column, and then the row. */
    private static final Pattern TILE = Pattern.compile("x(\\d{1,6})(?:y(\\d{0,6}))?");

    private PlaceOffers() {}

    /** Pads whose names have the word, and tiles whose names begin with it. */
    static List<String> of(OpenDesign opened, String word) {
        Suggestions tiles = new Suggestions(tiles(opened.design().fabric(), word));
        return word.isBlank()
                ? tiles.names()
                : tiles.before(opened.padNames().find(word, Suggestions.COUNTED)).names();
    }

    private static List<String> tiles(Fabric fabric, String word) {
        Matcher begun = TILE.matcher(word.strip().toLowerCase(Locale.ROOT));
        if (!begun.matches()) {
            return List.of();
        }
        String row = begun.group(2);
        List<String> result = new ArrayList<>();
        for (int x : beginningWith(begun.group(1), fabric.columns(), row != null)) {
            for (int y : beginningWith(row == null ? "" : row, fabric.rows(), false)) {
                if (result.size() < Suggestions.COUNTED) {
                    result.add("x" + x + "y" + y);
                }
            }
        }
        return result;
    }

    /**
     * The first numbers below a limit that begin with these digits.
     *
     * @param whole whether they have no further digits
     */
    private static List<Integer> beginningWith(String digits, int limit, boolean whole) {
        List<Integer> result = new ArrayList<>();
        for (int n = 0; n < limit && result.size() < Suggestions.COUNTED; n++) {
            String text = Integer.toString(n);
            if (whole ? text.equals(digits) : text.startsWith(digits)) {
                result.add(n);
            }
        }
        return result;
    }
}
