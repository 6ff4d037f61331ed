package padward.ui.model;

import java.util.List;
import java.util.Optional;

/**
 * The state of the window that is restored the next time.
 *
 * @param file the design's file that was open; empty for the demo
 * @param questions the questions that were open
 * @param shown index of the one that was shown
 * @param place the visible part of the map; empty for all of it
 * @param dark whether the dark theme was shown
 * @param lists whether the lists next to the map were shown
 * @param textSize size of text, pixels
 * @param recentFiles designs that were opened, the latest first
 * @param recentNets nets that were asked for, the latest first
 * @param recentPads pads that were asked for, the latest first
 */
public record Session(
        Optional<String> file,
        List<QuestionsModel.Stated> questions,
        int shown,
        Optional<Place> place,
        boolean dark,
        boolean lists,
        int textSize,
        List<String> recentFiles,
        List<String> recentNets,
        List<String> recentPads) {
    /** The session of the first start. */
    static final Session FIRST =
            new Session(
                    Optional.empty(),
                    List.of(),
                    0,
                    Optional.empty(),
                    false,
                    true,
                    AppearanceModel.DEFAULT_TEXT,
                    List.of(),
                    List.of(),
                    List.of());

    /**
     * A part of the map.
     *
     * @param x middle, in tiles
     * @param y middle, in tiles
     * @param scale pixels per tile
     */
    public record Place(double x, double y, double scale) {}

    /** Copies the lists. */
    public Session {
        questions = List.copyOf(questions);
        recentFiles = List.copyOf(recentFiles);
        recentNets = List.copyOf(recentNets);
        recentPads = List.copyOf(recentPads);
    }
}
