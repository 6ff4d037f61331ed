package padward.ui.draw;

import java.util.List;
import javafx.scene.paint.Color;

/**
 * Colours of the canvases in one theme. The marks have the colours of Okabe and Ito, "Color
 * Universal Design", 2008; each also has a shape or dash of its own.
 *
 * @param several colours by which several routes are told apart, with their shapes
 */
public record Palette(
        Color paper,
        Color ink,
        Color faint,
        Color tile,
        Color rim,
        Color box,
        Color site,
        Color used,
        Color usedStrong,
        Color net,
        Color route,
        Color alternative,
        Color obstacle,
        Color obstacleInk,
        Color selection,
        Color kind,
        Color delay,
        Color delayLine,
        Color frontier,
        List<Color> several) {
    /** Copies the colours of several routes. */
    public Palette {
        several = List.copyOf(several);
    }

    /** Dark ink on a light background. */
    public static final Palette LIGHT =
            new Palette(
                    Color.web("#faf8f4"),
                    Color.web("#24292f"),
                    Color.web("#525962"),
                    Color.web("#efece5"),
                    Color.web("#e6e9ec"),
                    Color.web("#7d8188"),
                    Color.web("#ffffff"),
                    Color.web("#9a9285"),
                    Color.web("#857d70"),
                    Color.web("#3c7fae"),
                    Color.web("#0072B2"),
                    Color.web("#2783b6"),
                    Color.web("#D55E00"),
                    Color.web("#a84a00"),
                    Color.web("#a3477c"),
                    Color.web("#8d7f5c"),
                    Color.web("#009E73"),
                    Color.web("#006b4e"),
                    Color.web("#7a4a00"),
                    List.of(
                            Color.web("#007a59"),
                            Color.web("#9a6200"),
                            Color.web("#6a4fa3"),
                            Color.web("#24292f")));

    /** Light ink on a dark background. */
    public static final Palette DARK =
            new Palette(
                    Color.web("#1f2733"),
                    Color.web("#e8ecf1"),
                    Color.web("#b4becb"),
                    Color.web("#283243"),
                    Color.web("#2e3a4d"),
                    Color.web("#7d8a9b"),
                    Color.web("#161c25"),
                    Color.web("#6e6a63"),
                    Color.web("#a39c92"),
                    Color.web("#7fb6dc"),
                    Color.web("#56B4E9"),
                    Color.web("#9fd4f2"),
                    Color.web("#ff8a3d"),
                    Color.web("#ffa066"),
                    Color.web("#e3a3c6"),
                    Color.web("#8f8875"),
                    Color.web("#009E73"),
                    Color.web("#5fd9b2"),
                    Color.web("#F0E442"),
                    List.of(
                            Color.web("#2fc79a"),
                            Color.web("#E69F00"),
                            Color.web("#b7a6f0"),
                            Color.web("#e8ecf1")));
}
