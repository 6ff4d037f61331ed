package padward.ui.scene;

import java.util.Optional;
import java.util.Set;
import padward.breakout.ask.Route;
import padward.fabric.delay.Corner;
import padward.ui.draw.Palette;

/**
 * Everything that one picture of the strip map shows, as a value.
 *
 * @param route the route
 * @param empty text to show when there is no route
 * @param corner corner whose delays set the scale
 * @param palette its colours
 * @param letters size of letters, relative to the usual size
 * @param selected index of the selected hop
 * @param chosen indices of the hops that the chosen obstacle uses
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

    /** The same in other colours. */
    public StripScene in(Palette colors) {
        return new StripScene(route, empty, corner, colors, letters, selected, chosen);
    }

    /** Size of letters in pixels, given their usual size; distances follow it. */
    public double letters(double usual) {
        return letters * usual;
    }
}
