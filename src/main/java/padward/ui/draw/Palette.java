package padward.ui.draw;

import javafx.scene.paint.Color;

/**
 * Colours of the canvases in one theme. The marks are those of Okabe and Ito, "Color Universal
 * Design", 2008; each is joined by a shape or a dash of its own.
 */
public record Palette(
        Color paper,
        Color ink,
        Color faint,
        Color tile,
        Color rim,
        Color box,
        Color site,
        Color held,
        Color heldStrong,
        Color net,
        Color way,
        Color alternative,
        Color obstacle,
        Color selection,
        Color kind,
        Color delay,
        Color delayLine,
        Color frontier) {
    /** Dark ink on a light ground. */
    public static final Palette LIGHT =
            new Palette(
                    Color.web("#faf8f4"),
                    Color.web("#24292f"),
                    Color.web("#5f6670"),
                    Color.web("#efece5"),
                    Color.web("#e6e9ec"),
                    Color.web("#8b8f96"),
                    Color.web("#ffffff"),
                    Color.web("#b9b2a7"),
                    Color.web("#857d70"),
                    Color.web("#3c7fae"),
                    Color.web("#0072B2"),
                    Color.web("#2f8fc4"),
                    Color.web("#D55E00"),
                    Color.web("#a3477c"),
                    Color.web("#8d7f5c"),
                    Color.web("#009E73"),
                    Color.web("#006b4e"),
                    Color.web("#7a4a00"));

    /** Light ink on a dark ground. */
    public static final Palette DARK =
            new Palette(
                    Color.web("#1f2733"),
                    Color.web("#e8ecf1"),
                    Color.web("#a9b4c2"),
                    Color.web("#283243"),
                    Color.web("#2e3a4d"),
                    Color.web("#7d8a9b"),
                    Color.web("#364358"),
                    Color.web("#625d57"),
                    Color.web("#a39c92"),
                    Color.web("#7fb6dc"),
                    Color.web("#56B4E9"),
                    Color.web("#9fd4f2"),
                    Color.web("#ff8a3d"),
                    Color.web("#e3a3c6"),
                    Color.web("#a9a08a"),
                    Color.web("#009E73"),
                    Color.web("#5fd9b2"),
                    Color.web("#F0E442"));
}
