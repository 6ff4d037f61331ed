package padward.ui.control;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Cautions;

/** Cautions as labels: the serious ones stand out, the line under all of them is quiet. */
public final class CautionLines {
    /** So many pads are named before a caution; the tooltip names all. */
    private static final int MOST_PADS = 6;

    private static final double TIP_WIDTH = 480;

    private CautionLines() {}

    /** The cautions that stand out, without the quiet line. */
    public static List<Node> loud(Collection<Caution> cautions) {
        List<Node> result = new ArrayList<>();
        for (Caution caution : cautions) {
            add(caution.kind(), caution.text(), new StringBuilder(), result);
        }
        return result;
    }

    /** The line that belongs to every answer with cautions; empty for none. */
    public static String quiet(Collection<Caution> cautions) {
        StringBuilder quiet = new StringBuilder();
        cautions.stream()
                .filter(c -> c.kind() == Caution.Kind.GENERAL)
                .forEach(c -> quiet.append(c.text()).append(' '));
        return cautions.isEmpty() ? "" : quiet + Cautions.FOOTER;
    }

    /** The cautions about one pad. */
    public static List<Node> of(Collection<Caution> cautions) {
        List<Node> result = new ArrayList<>();
        StringBuilder quiet = new StringBuilder();
        for (Caution caution : cautions) {
            add(caution.kind(), caution.text(), quiet, result);
        }
        return finished(quiet, result);
    }

    /** The cautions about several pads. A danger names all of them. */
    public static List<Node> ofShared(Collection<Cautions.Shared> cautions) {
        List<Node> result = new ArrayList<>();
        StringBuilder quiet = new StringBuilder();
        for (Cautions.Shared shared : cautions) {
            Caution.Kind kind = shared.caution().kind();
            String all = shared.toText();
            String text = kind.isSerious() ? all : shared.toText(MOST_PADS);
            add(kind, text, quiet, result)
                    .filter(label -> !text.equals(all))
                    .ifPresent(label -> label.setTooltip(wide(all)));
        }
        return finished(quiet, result);
    }

    private static Tooltip wide(String text) {
        Tooltip tip = new Tooltip(text);
        tip.setWrapText(true);
        tip.setMaxWidth(TIP_WIDTH);
        return tip;
    }

    private static Optional<Label> add(
            Caution.Kind kind, String text, StringBuilder quiet, List<Node> result) {
        if (kind == Caution.Kind.GENERAL) {
            quiet.append(text).append(' ');
            return Optional.empty();
        }
        Label label = Controls.text((kind.isSerious() ? "⚠ Danger: " : "⚠ ") + text, "caution");
        if (kind.isSerious()) {
            label.getStyleClass().add("serious");
        }
        result.add(label);
        return Optional.of(label);
    }

    private static List<Node> finished(StringBuilder quiet, List<Node> result) {
        if (!result.isEmpty() || quiet.length() > 0) {
            result.add(Controls.text(quiet + Cautions.FOOTER, "faint", "small"));
        }
        return result;
    }
}
