package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;

/**
 * The register of a pad's IO register site, for data that leaves. Its pins are those that its kind
 * states; else the output is what leads to the pad, the data pin what leads through to that, and
 * the clock's is another input.
 *
 * @param kind the kind of cell that is placed
 * @param function its function, if the fabric states it
 * @param data vertex of the data input
 * @param output vertex of the output, which leads to the pad
 * @param clocks vertices of the inputs of which one is the clock's
 */
public record IoRegister(
        String kind,
        Optional<CellFunction.Register> function,
        int data,
        int output,
        List<Integer> clocks) {
    /** Copies the list. */
    public IoRegister {
        clocks = List.copyOf(clocks);
    }

    /** The register before a pad; empty when its site accepts none. */
    public static Optional<IoRegister> find(Fabric fabric, Pad pad) {
        SiteView site = fabric.site(pad.dataSite());
        int output = output(fabric, site, pad);
        if (output == Fabric.NOTHING) {
            return Optional.empty();
        }
        List<CellKind> kinds =
                site.accepts().stream()
                        .flatMap(k -> fabric.info().findCellKind(k).stream())
                        .filter(CellKind::holdsState)
                        .toList();
        for (CellKind kind : kinds) {
            Optional<CellFunction.Register> function = kind.register();
            if (function.isPresent()
                    && function.get().fits(site)
                    && site.findPin(function.get().output()) == output) {
                int data = site.findPin(function.get().data());
                int clock = site.findPin(function.get().clock());
                return Optional.of(
                        new IoRegister(kind.name(), function, data, output, List.of(clock)));
            }
        }
        return kinds.stream()
                .filter(k -> k.register().isEmpty() && k.doubleRate().isEmpty())
                .findFirst()
                .flatMap(k -> derived(fabric, site, k.name(), output));
    }

    static int output(Fabric fabric, SiteView site, Pad pad) {
        EdgeCursor into = fabric.edgesIn();
        into.reset(pad.vertex());
        int output = Fabric.NOTHING;
        while (into.next()) {
            output = fabric.siteOf(into.other()) == site.id() ? into.other() : output;
        }
        return output;
    }

    private static Optional<IoRegister> derived(
            Fabric fabric, SiteView site, String kind, int output) {
        List<Integer> data = new ArrayList<>();
        EdgeCursor into = fabric.edgesIn();
        into.reset(output);
        while (into.next()) {
            if (into.kind() == EdgeKind.PASS_THROUGH) {
                data.add(into.other());
            }
        }
        List<Integer> others = new ArrayList<>();
        for (int i = 0; i < site.pins().size(); i++) {
            int pin = site.firstPin() + i;
            if (site.pins().get(i).direction() == PinDirection.IN && !data.contains(pin)) {
                others.add(pin);
            }
        }
        return data.isEmpty() || others.isEmpty()
                ? Optional.empty()
                : Optional.of(new IoRegister(kind, Optional.empty(), data.get(0), output, others));
    }

    /**
     * What it does with its pins, as far as that is known; empty when several pins could be the
     * clock's.
     */
    public Optional<CellFunction.Register> toFunction(SiteView site) {
        return function.isPresent() || clocks.size() != 1
                ? function
                : Optional.of(
                        CellFunction.Register.of(
                                pinName(site, data),
                                pinName(site, clocks.get(0)),
                                pinName(site, output)));
    }

    /** Name of one of the site's pins. */
    static String pinName(SiteView site, int vertex) {
        return site.pins().get(vertex - site.firstPin()).name();
    }
}
