package padward.ui.scene;

import java.util.Optional;
import java.util.Set;
import padward.breakout.ask.Route;
import padward.fabric.Corner;
import padward.ui.draw.Palette;

/**
 * All that one picture of the strip map shows, as a value.
 *
 * @param route the way
 * @param empty what is said when there is no way to draw
 * @param corner corner whose delays give the scale
 * @param palette its colours
 * @param letters size of letters against the usual
 * @param selected index of the hop that is selected
 * @param chosen indices of the hops that the chosen obstacle holds
 */
public record StripScene(
        Optional<Route> route,
        String empty,
        Corner corner,
        Palette palette,
        double letters,
        Optional<Integer> selected,
        Set<Integer> chosen) {
    /** Copies the set. */
    public StripScene {
        chosen = Set.copyOf(chosen);
    }

    /** Size of letters that usually are so many pixels high; distances follow it. */
    public double letters(double usual) {
        return letters * usual;
    }
}
