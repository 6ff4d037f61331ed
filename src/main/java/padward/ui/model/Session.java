package padward.ui.model;

import java.util.List;
import java.util.Map;
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
 * @param reasons whether the reasons of an answer were shown under it
 * @param textSize size of text, pixels
 * @param recentFiles designs that were opened, the latest first
 * @param recentNets nets that were asked for, the latest first
 * @param recentPads pads that were asked for, the latest first
 * @param layout the window's place, and how its parts were left
 */
public record Session(
        Optional<String> file,
        List<QuestionsModel.Stated> questions,
        int shown,
        Optional<Place> place,
        boolean dark,
        boolean lists,
        boolean reasons,
        int textSize,
        List<String> recentFiles,
        List<String> recentNets,
        List<String> recentPads,
        Layout layout) {
    /** The session of the first start. */
    static final Session FIRST =
            new Session(
                    Optional.empty(),
                    List.of(),
                    0,
                    Optional.empty(),
                    false,
                    true,
                    false,
                    AppearanceModel.DEFAULT_TEXT,
                    List.of(),
                    List.of(),
                    List.of(),
                    Layout.FIRST);

    /**
     * A part of the map.
     *
     * @param x middle, in tiles
     * @param y middle, in tiles
     * @param scale pixels per tile
     */
    public record Place(double x, double y, double scale) {}

    /**
     * Where the window is, and how its parts were left.
     *
     * @param window its place on the screen, when it is not maximised
     * @param maximised whether it fills the screen
     * @param mapShare share of the width that the map has
     * @param columns the columns of tables, by the id of the table
     */
    public record Layout(
            Optional<Bounds> window,
            boolean maximised,
            Optional<Double> mapShare,
            Map<String, List<AppearanceModel.Column>> columns) {
        /** Of the first start. */
        static final Layout FIRST = new Layout(Optional.empty(), false, Optional.empty(), Map.of());

        /** Copies the columns. */
        public Layout {
            columns = Map.copyOf(columns);
        }
    }

    /**
     * A place on the screen, in pixels of a display that is not scaled.
     *
     * @param x left
     * @param y top
     * @param width width
     * @param height height
     */
    public record Bounds(double x, double y, double width, double height) {}

    /** One with the layout of the first start, without reasons. */
    Session(
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
        this(
                file,
                questions,
                shown,
                place,
                dark,
                lists,
                false,
                textSize,
                recentFiles,
                recentNets,
                recentPads,
                Layout.FIRST);
    }

    /** Copies the lists. */
    public Session {
        questions = List.copyOf(questions);
        recentFiles = List.copyOf(recentFiles);
        recentNets = List.copyOf(recentNets);
        recentPads = List.copyOf(recentPads);
    }
}
