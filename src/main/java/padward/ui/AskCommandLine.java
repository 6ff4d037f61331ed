package padward.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.design.Design;
import padward.fabric.delay.Corner;
import padward.ui.design.OpenDesign;
import padward.ui.model.GroupFieldsParser;
import padward.ui.model.WindowModel;

/** The command line that asks what the fields of the question say. */
final class AskCommandLine {
    private AskCommandLine() {}

    /** The command; empty where no command asks the same. What is kept is not part of it. */
    static Optional<String> of(WindowModel model) {
        String net = model.shown().netTextProperty().get().strip();
        String pad = model.shown().padTextProperty().get().strip();
        Optional<Design> design = model.openedProperty().get().map(OpenDesign::design);
        if (net.isEmpty() || design.isEmpty()) {
            return Optional.empty();
        }
        Optional<List<String>> pads = pads(design.get(), pad);
        if (pads.isEmpty()) {
            return Optional.empty();
        }
        boolean one = pads.get().contains("--pad");
        List<String> words = new ArrayList<>(List.of("padward", one ? "ask" : "survey"));
        model.design()
                .fileProperty()
                .get()
                .ifPresent(f -> words.addAll(List.of("--design", f.toAbsolutePath().toString())));
        words.addAll(List.of("--net", net));
        words.addAll(pads.get());
        if (model.shown().cornerProperty().get() == Corner.FAST) {
            words.addAll(List.of("--corner", "fast"));
        }
        boolean windows =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).startsWith("windows");
        return Optional.of(
                words.stream().map(w -> quoted(w, windows)).collect(Collectors.joining(" ")));
    }

    /** The options that name these pads: none for all; empty for a group that no option names. */
    private static Optional<List<String>> pads(Design design, String text) {
        List<Integer> meant = GroupFieldsParser.anyOf(design, text);
        if (text.isEmpty() || text.equals("any")) {
            return Optional.of(List.of());
        }
        if (meant.size() == 1) {
            boolean byName = GroupFieldsParser.isName(design, text);
            String full = design.fabric().pads().get(meant.get(0)).name();
            return Optional.of(List.of("--pad", byName ? text : full));
        }
        if (meant.isEmpty()) {
            return Optional.of(List.of("--pad", text));
        }
        if (text.startsWith("bank ")) {
            return Optional.of(List.of("--bank", text.substring(5).strip()));
        }
        String header = text.startsWith("header ") ? text.substring(7).strip() : text;
        return meant.equals(GroupFieldsParser.anyOf(design, "header " + header))
                ? Optional.of(List.of("--header", header))
                : Optional.empty();
    }

    /**
     * In quotes where a shell would read more into it than its letters: single ones, or on Windows,
     * whose command prompt knows no others, double ones.
     */
    static String quoted(String word, boolean windows) {
        if (windows) {
            return word.matches("[\\w./:\\\\@+-]+")
                    ? word
                    : "\"" + word.replace("\"", "\\\"") + "\"";
        }
        return word.matches("[\\w./:=@%+,-]+") ? word : "'" + word.replace("'", "'\\''") + "'";
    }
}
