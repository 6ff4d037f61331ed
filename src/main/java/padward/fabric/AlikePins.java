package padward.fabric;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** Which pins of a site can take each other's signal, depending on the kind of cell there. */
public final class AlikePins {
    private AlikePins() {}

    /**
     * Whether the signals of two pins can be swapped under a cell: the fabric states that they are
     * alike, and the cell, as far as its function is known, uses both of them as inputs of a lookup
     * table, or neither.
     *
     * @param cell the kind of the cell
     */
    public static boolean canSwap(
            Fabric fabric, SiteView site, String cell, String pin, String other) {
        return find(site, pin)
                .flatMap(p -> find(site, other).filter(p::isLike))
                .filter(p -> serveAlike(fabric, cell, pin, other))
                .isPresent();
    }

    private static Optional<SitePin> find(SiteView site, String name) {
        return site.pins().stream().filter(p -> p.name().equals(name)).findFirst();
    }

    private static boolean serveAlike(Fabric fabric, String cell, String pin, String other) {
        List<String> used =
                fabric.info().findCellKind(cell).map(CellKind::usedPins).orElse(List.of());
        return isInput(fabric, cell, pin)
                ? isInput(fabric, cell, other)
                : !used.contains(pin) && !used.contains(other);
    }

    private static boolean isInput(Fabric fabric, String cell, String pin) {
        return fabric.info()
                .findCellKind(cell)
                .flatMap(CellKind::lookupTable)
                .filter(table -> table.inputs().contains(pin))
                .isPresent();
    }

    /** The pins that can be swapped with one under a cell of a kind, in their order. */
    public static List<String> of(Fabric fabric, SiteView site, String cell, String pin) {
        return IntStream.range(0, site.pins().size())
                .mapToObj(i -> site.pins().get(i).name())
                .filter(other -> canSwap(fabric, site, cell, pin, other))
                .toList();
    }

    /** Pins of a site that are said to be like others and are like none, by their full names. */
    public static List<String> alone(SiteView site) {
        return IntStream.range(0, site.pins().size())
                .filter(i -> !site.pins().get(i).alike().isEmpty())
                .filter(i -> site.pins().stream().noneMatch(site.pins().get(i)::isLike))
                .mapToObj(site::pinName)
                .toList();
    }

    /** Pins that are said to be alike and that some accepted cell uses differently. */
    public static List<String> usedDifferently(Fabric fabric, SiteView site) {
        return IntStream.range(0, site.pins().size())
                .filter(i -> isUsedDifferently(fabric, site, site.pins().get(i)))
                .mapToObj(site::pinName)
                .toList();
    }

    private static boolean isUsedDifferently(Fabric fabric, SiteView site, SitePin pin) {
        List<SitePin> others = site.pins().stream().filter(pin::isLike).toList();
        return site.accepts().stream()
                .anyMatch(
                        kind ->
                                others.stream()
                                        .anyMatch(
                                                o ->
                                                        !serveAlike(
                                                                fabric,
                                                                kind,
                                                                pin.name(),
                                                                o.name())));
    }
}
