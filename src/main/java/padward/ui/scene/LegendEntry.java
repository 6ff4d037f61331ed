package padward.ui.scene;

import padward.ui.draw.Surface;

/**
 * A line of the legend that an overlay of the map adds.
 *
 * @param meaning what the mark means
 * @param sample paints the mark
 */
public record LegendEntry(String meaning, Sample sample) {
    /** Paints a sample of a mark. */
    public interface Sample {
        /** Paints it between two x, around a y. */
        void paint(Surface out, double left, double right, double y);
    }
}
