package padward.ui.map;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.ui.design.OpenDesign;
import padward.ui.model.Suggestions;

/**
 * The names that fit what is sought on the map, and which of them is shown.
 *
 * @param names at least one, each of another place; the name as it was typed first, if something
 *     has it
 * @param cut whether there may be more
 * @param at index of the one that is shown
 */
record FindMatches(List<String> names, boolean cut, int at) {
    /** Copies the names. */
    FindMatches {
        names = List.copyOf(names);
    }

    /** The names of a design that fit a text; empty when none does. Looks at all names. */
    static Optional<FindMatches> find(OpenDesign opened, String text) {
        Suggestions fitting =
                Suggestions.of(text, opened.placeNames(), List.of())
                        .before(PlaceOffers.of(opened, text));
        List<String> names = new ArrayList<>();
        if (NameFinder.find(opened, text).isPresent()) {
            names.add(text.strip());
        }
        names.addAll(fitting.names());
        List<String> once = ofDifferentPlaces(opened, names);
        return once.isEmpty()
                ? Optional.empty()
                : Optional.of(new FindMatches(once, fitting.isCut(), 0));
    }

    /** Of the names of one place, the first; a name of several things stays. */
    private static List<String> ofDifferentPlaces(OpenDesign opened, List<String> names) {
        Set<FoundPlace> seen = new HashSet<>();
        return names.stream()
                .distinct()
                .filter(n -> NameFinder.find(opened, n).map(seen::add).orElse(true))
                .toList();
    }

    /** The one that is shown. */
    String name() {
        return names.get(at);
    }

    /** Shows the match so many further; behind the last comes the first. */
    FindMatches step(int by) {
        return new FindMatches(names, cut, Math.floorMod(at + by, names.size()));
    }

    /** Which one of how many is shown, as a text such as {@code 3 of 17}. */
    String count() {
        return at + 1 + " of " + (cut ? "at least " : "") + names.size();
    }
}
