package padward.ui.control;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;

/** Finds actions by words of their label or purpose. */
final class CommandFinder {
    private CommandFinder() {}

    /**
     * The actions in whose texts every typed word is the beginning of a word: first matches of the
     * label, then of the menu, then of the purpose; in each group, possible actions come first.
     */
    static List<Action> find(String typed, List<Action> actions) {
        List<String> wanted = words(typed);
        List<Action> result = new ArrayList<>();
        add(result, actions, a -> fits(wanted, a.text()));
        add(result, actions, a -> fits(wanted, a.text() + " " + a.group().title()));
        add(
                result,
                actions,
                a -> fits(wanted, a.text() + " " + a.group().title() + " " + a.purpose()));
        return result;
    }

    private static void add(List<Action> result, List<Action> actions, Predicate<Action> fitting) {
        for (boolean possible : new boolean[] {true, false}) {
            for (Action action : actions) {
                if (action.possible().get() == possible
                        && fitting.test(action)
                        && !result.contains(action)) {
                    result.add(action);
                }
            }
        }
    }

    private static boolean fits(List<String> wanted, String text) {
        List<String> words = words(text);
        return wanted.stream().allMatch(w -> words.stream().anyMatch(t -> t.startsWith(w)));
    }

    private static List<String> words(String text) {
        return Arrays.stream(text.toLowerCase(Locale.ROOT).split("[^\\p{L}\\p{N}]+"))
                .filter(w -> !w.isEmpty())
                .toList();
    }
}
