package padward.breakout.verify;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;

/**
 * What differs between two designs on one fabric, by names: every net with its wires and delays,
 * every cell, every port. For all that is alike, every wire is compared and every delay calculated
 * again on either side, not concluded from the wires.
 *
 * @param nets nets that are not alike, in the first design's order, new ones last
 * @param cells cells that are not alike
 * @param ports ports that are not alike
 * @param same what was found alike
 */
public record DesignDiff(
        List<NetDiff> nets, List<DesignPartDiff> cells, List<DesignPartDiff> ports, Same same) {
    /** Copies the lists. */
    public DesignDiff {
        nets = List.copyOf(nets);
        cells = List.copyOf(cells);
        ports = List.copyOf(ports);
    }

    /**
     * What was compared and found alike.
     *
     * @param nets nets with the same driver, ends, wires and delays
     * @param steps their switches, fixed connections and pass-throughs
     * @param delays their delays, calculated at each vertex and at both corners
     * @param cells cells on the same site with the same settings
     * @param ports ports on the same pad with the same direction and setting
     */
    public record Same(int nets, long steps, long delays, int cells, int ports) {}

    /**
     * Compares two designs. O(size × switches at a vertex).
     *
     * @throws IllegalArgumentException when their fabrics have not the same number of vertices
     */
    public static DesignDiff between(Design before, Design after) {
        return between(before, after, Progress.NONE);
    }

    /**
     * The same, for large designs.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static DesignDiff between(Design before, Design after, Progress progress) {
        if (before.fabric().vertexCount() != after.fabric().vertexCount()) {
            throw new IllegalArgumentException("designs on two fabrics cannot be compared");
        }
        NetComparison nets = new NetComparison(before, after);
        Split<NetDiff> net = split(before.nets(), after.nets(), Net::name, nets::compare, progress);
        Split<DesignPartDiff> cell =
                split(
                        before.cells(),
                        after.cells(),
                        Cell::name,
                        (a, b) ->
                                part(
                                        name(a, b, Cell::name),
                                        a.map(c -> facts(before, c)),
                                        b.map(c -> facts(after, c))),
                        progress);
        Split<DesignPartDiff> port =
                split(
                        before.ports(),
                        after.ports(),
                        Port::name,
                        (a, b) ->
                                part(
                                        name(a, b, Port::name),
                                        a.map(p -> facts(before, p)),
                                        b.map(p -> facts(after, p))),
                        progress);
        return new DesignDiff(
                net.differing(),
                cell.differing(),
                port.differing(),
                new Same(net.same(), nets.steps(), nets.delays(), cell.same(), port.same()));
    }

    private record Split<D>(List<D> differing, int same) {}

    private static <T, D> Split<D> split(
            Collection<T> before,
            Collection<T> after,
            Function<T, String> name,
            BiFunction<Optional<T>, Optional<T>, Optional<D>> compare,
            Progress progress) {
        Map<String, T> later = after.stream().collect(Collectors.toMap(name, Function.identity()));
        List<D> differing = new ArrayList<>();
        int same = 0;
        int done = 0;
        for (T one : before) {
            progress.check();
            progress.report((double) done++ / before.size(), "comparing " + name.apply(one));
            Optional<D> diff =
                    compare.apply(
                            Optional.of(one), Optional.ofNullable(later.remove(name.apply(one))));
            diff.ifPresent(differing::add);
            same += diff.isEmpty() ? 1 : 0;
        }
        after.stream()
                .filter(t -> later.containsKey(name.apply(t)))
                .forEach(
                        t ->
                                compare.apply(Optional.empty(), Optional.of(t))
                                        .ifPresent(differing::add));
        return new Split<>(differing, same);
    }

    private static <T> String name(Optional<T> one, Optional<T> other, Function<T, String> name) {
        return name.apply(one.or(() -> other).orElseThrow());
    }

    private static Map<String, String> facts(Design design, Cell cell) {
        Map<String, String> facts = new TreeMap<>();
        facts.put("kind", cell.kind());
        facts.put("site", design.fabric().site(cell.site()).name());
        cell.settings().forEach((key, value) -> facts.put("setting " + key, value));
        return facts;
    }

    private static Map<String, String> facts(Design design, Port port) {
        Map<String, String> facts = new TreeMap<>();
        facts.put("direction", port.direction().label());
        facts.put("pad", design.fabric().pads().get(port.pad()).name());
        if (!port.setting().isEmpty()) {
            facts.put("setting", port.setting());
        }
        if (port.enableTied()) {
            facts.put("enable", Port.TIED);
        }
        return facts;
    }

    private static Optional<DesignPartDiff> part(
            String name,
            Optional<Map<String, String>> before,
            Optional<Map<String, String>> after) {
        if (before.equals(after)) {
            return Optional.empty();
        }
        Map<String, String> one = before.orElse(Map.of());
        Map<String, String> other = after.orElse(Map.of());
        List<NetDiff.Fact> facts =
                Stream.concat(one.keySet().stream(), other.keySet().stream())
                        .distinct()
                        .sorted()
                        .map(k -> fact(k, one, other))
                        .filter(f -> !f.before().equals(f.after()))
                        .toList();
        return Optional.of(new DesignPartDiff(name, how(before, after), facts));
    }

    private static NetDiff.Fact fact(
            String key, Map<String, String> one, Map<String, String> other) {
        return new NetDiff.Fact(key, one.getOrDefault(key, ""), other.getOrDefault(key, ""));
    }

    static Difference how(Optional<?> before, Optional<?> after) {
        if (after.isEmpty()) {
            return Difference.GONE;
        }
        return before.isEmpty() ? Difference.NEW : Difference.CHANGED;
    }

    /** Whether nothing differs. */
    public boolean isNothing() {
        return nets.isEmpty() && cells.isEmpty() && ports.isEmpty();
    }
}
