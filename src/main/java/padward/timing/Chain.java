package padward.timing;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.design.Design;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;

/**
 * A line's delay from the net's driver to the instrument, link by link.
 *
 * @param toPad from the net's driver to the pad's driver
 * @param links in the order of the signal; each {@link Part} once
 * @param output from the pad's driver on
 */
public record Chain(Delay toPad, List<Link> links, OutputPath output) {
    /** What the signal passes. */
    public enum Part {
        /** Wires and switches, up to the pad's IO register site or, past it, the pad's driver. */
        FABRIC,
        /** Through the pad's IO register site to its driver. */
        IO_REGISTER_SITE,
        /** The pad's driver, under the load that hangs on it. */
        DRIVER,
        /** From the pad to the pin or ball. */
        PACKAGE,
        /** The board's trace, unless it is part of the load. */
        TRACE,
        /** The connector. */
        CONNECTOR,
        /** The lead. */
        LEAD;

        /** The word used on screens. */
        public String label() {
            return this == IO_REGISTER_SITE ? "IO register site" : name().toLowerCase(Locale.ROOT);
        }
    }

    /**
     * One link.
     *
     * @param part what the signal passes
     * @param delay how long that takes at both corners
     */
    public record Link(Part part, Delay delay) {}

    /** Copies the links. */
    public Chain {
        links = List.copyOf(links);
    }

    /**
     * The chain of a net that is on a pad.
     *
     * @param tree the net's wires, the pad among them
     * @param pad index of the pad
     * @param setting how the pad's driver is set; empty when not known, then it adds nothing
     * @throws IllegalArgumentException when the tree does not reach the pad
     */
    public static Chain of(
            Design design,
            RouteTree tree,
            int pad,
            Optional<DriverSetting> setting,
            ExternalLineDelay external) {
        Fabric fabric = design.fabric();
        Pad at = fabric.pads().get(pad);
        int end = tree.placeOf(at.vertex());
        if (end == Fabric.NOTHING) {
            throw new IllegalArgumentException("the net is not on pad " + at.name());
        }
        TreeDelays delays = TreeDelays.of(fabric, tree);
        Delay toSite = delays.at(entry(fabric, tree, end, at.dataSite()));
        Delay toPad = delays.at(end);
        OutputPath output = OutputPath.of(design, pad, setting, external);
        List<Link> links =
                List.of(
                        new Link(Part.FABRIC, toSite),
                        new Link(Part.IO_REGISTER_SITE, toPad.less(toSite)),
                        new Link(Part.DRIVER, output.driver()),
                        new Link(Part.PACKAGE, output.inPackage()),
                        new Link(Part.TRACE, output.trace()),
                        new Link(Part.CONNECTOR, output.connector()),
                        new Link(Part.LEAD, output.lead()));
        return new Chain(toPad, links, output);
    }

    /** The place at which the signal enters the pad's data site; the pad's own if it never does. */
    private static int entry(Fabric fabric, RouteTree tree, int end, int dataSite) {
        int result = end;
        for (int place = end; place >= 0; place = tree.parent(place)) {
            if (dataSite != Fabric.NOTHING && fabric.siteOf(tree.vertex(place)) == dataSite) {
                result = place;
            }
        }
        return result;
    }

    /** The delay of one part. */
    public Delay delay(Part part) {
        return links.stream()
                .filter(l -> l.part() == part)
                .map(Link::delay)
                .reduce(Delay.ZERO, Delay::plus);
    }

    /** From the net's driver to the pin, at the driver's rated load. */
    public Delay atPin() {
        return toPad.plus(output.toPin());
    }

    /** From the net's driver to the instrument, at the load that is stated. */
    public Delay atInstrument() {
        return toPad.plus(output.toInstrument());
    }

    /** The same, with what shares the die's corner apart. */
    public Arrival arrival() {
        return output.after(toPad);
    }
}
