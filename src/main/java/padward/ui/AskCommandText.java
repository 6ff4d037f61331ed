package padward.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.fabric.Corner;
import padward.ui.model.QuestionModel;
import padward.ui.model.WindowModel;

/** The command line that asks what the window shows. */
final class AskCommandText {
    private AskCommandText() {}

    /** The command; empty while no net is named. What is kept is not part of it. */
    static Optional<String> of(WindowModel model) {
        String net = model.shown().netTextProperty().get().strip();
        String pad = model.shown().padTextProperty().get().strip();
        if (net.isEmpty()) {
            return Optional.empty();
        }
        boolean several =
                pad.isEmpty()
                        || model.shown().scopeProperty().getValue().about()
                                == QuestionModel.About.ANY_PAD;
        List<String> words = new ArrayList<>(List.of("padward", several ? "survey" : "ask"));
        model.design()
                .fileProperty()
                .get()
                .ifPresent(f -> words.addAll(List.of("--design", f.toAbsolutePath().toString())));
        words.addAll(List.of("--net", net));
        if (!several) {
            words.addAll(List.of("--pad", pad));
        }
        if (model.shown().cornerProperty().get() == Corner.FAST) {
            words.addAll(List.of("--corner", "fast"));
        }
        return Optional.of(
                words.stream().map(AskCommandText::quoted).collect(Collectors.joining(" ")));
    }

    /** In quotes where a shell would read more into it than its letters. */
    private static String quoted(String word) {
        return word.matches("[\\w./:=@%+,-]+") ? word : "'" + word.replace("'", "'\\''") + "'";
    }
}
