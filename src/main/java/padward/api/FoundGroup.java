package padward.api;

import java.util.List;
import padward.breakout.group.Bus;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.design.Design;

/** Several nets brought out together, each on a pad of its own. */
public final class FoundGroup {
    private final Design design;
    private final Bus bus;

    FoundGroup(Design design, Bus bus) {
        this.design = design;
        this.bus = bus;
    }

    /**
     * A net that is served.
     *
     * @param delay from its driver to the pin, at the driver's rated load
     */
    public record Line(FoundNet net, FoundPad pad, DelayRange delay, List<RouteStep> route) {
        /** Copies the route. */
        public Line {
            route = List.copyOf(route);
        }
    }

    Bus bus() {
        return bus;
    }

    /** The nets that are served, in the order in which they were named. */
    public List<Line> lines() {
        return bus.lines().stream()
                .map(
                        l ->
                                new Line(
                                        Values.net(design, l.net()),
                                        Values.pad(design, Bus.question(design, l).pad()),
                                        Values.delay(l.route().total()),
                                        l.route().hops().stream().map(Values::step).toList()))
                .toList();
    }

    /** The nets that are not, each with the reason. */
    public List<String> notServed() {
        return bus.notServed();
    }

    /** What changes, in words. */
    public List<String> edits() {
        return bus.edits().stream().map(Edit::toText).toList();
    }

    /** What it costs, in sentences. */
    public String cost() {
        return PriceText.sentences(bus.price(design));
    }

    /** The words that have to be accepted before it can be kept. */
    public List<String> toAccept() {
        return PriceText.words(bus.price(design).toAccept());
    }
}
