package padward.handover;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.pad.PadEnable;

/**
 * A chip as another tool sees it that carries a change list out, step by step: nothing but names. A
 * step that does not fit what is there is a fault. Written from docs/formats.md.
 */
final class PlainChip {
    /** What the tool knows of a net. */
    private static final class PlainNet {
        private final String driver;
        private final boolean clock;
        private final Set<String> ends = new TreeSet<>();
        private final Set<String> steps = new TreeSet<>();

        PlainNet(String driver, boolean clock) {
            this.driver = driver;
            this.clock = clock;
        }

        @Override
        public String toString() {
            return driver + (clock ? " clock " : " ") + ends + " " + steps;
        }
    }

    private final Fabric fabric;
    private final Map<String, PlainNet> nets = new TreeMap<>();
    private final Map<String, Map<String, String>> cells = new TreeMap<>();
    private final Map<String, Map<String, String>> ports = new TreeMap<>();
    private final Set<String> tied = new TreeSet<>();

    private PlainChip(Fabric fabric) {
        this.fabric = fabric;
    }

    static PlainChip of(Design design) {
        PlainChip chip = new PlainChip(design.fabric());
        Fabric fabric = design.fabric();
        for (Net net : design.nets()) {
            PlainNet plain = new PlainNet(design.textOf(net.driver()), net.clock());
            net.sinks().forEach(s -> plain.ends.add(design.textOf(s)));
            for (int i = 1; i < net.route().size(); i++) {
                plain.steps.add(
                        fabric.vertexName(net.route().vertex(net.route().parent(i)))
                                + " > "
                                + fabric.vertexName(net.route().vertex(i)));
            }
            chip.nets.put(net.name(), plain);
        }
        for (Cell cell : design.cells()) {
            Map<String, String> facts = new TreeMap<>();
            facts.put("site", fabric.site(cell.site()).name());
            facts.put("kind", cell.kind());
            cell.settings().forEach((k, v) -> facts.put("setting " + k, v));
            chip.cells.put(cell.name(), facts);
        }
        for (Port port : design.ports()) {
            Pad pad = fabric.pads().get(port.pad());
            chip.ports.put(
                    port.name(),
                    new TreeMap<>(
                            Map.of(
                                    "pad",
                                    pad.name(),
                                    "setting",
                                    port.setting(),
                                    "direction",
                                    port.direction().label())));
            if (port.enableTied()) {
                chip.tied.add(pad.name());
            }
        }
        return chip;
    }

    void carryOut(ChangeList list) {
        list.entries().forEach(e -> e.changes().forEach(this::carryOut));
    }

    private void carryOut(Change change) {
        String name = change.get("name");
        String step = change.get("from") + " > " + change.get("to");
        switch (change.what()) {
            case OFF -> did(nets.get(name).steps.remove(step), change);
            case ON -> did(nets.get(name).steps.add(step), change);
            case END_GONE -> did(nets.get(name).ends.remove(change.get("end")), change);
            case END_NEW -> did(nets.get(name).ends.add(change.get("end")), change);
            case NET_GONE -> {
                PlainNet gone = nets.remove(name);
                did(gone.ends.isEmpty() && gone.steps.isEmpty(), change);
            }
            case NET_NEW -> {
                boolean clock = change.get("value").equals("clock");
                did(nets.put(name, new PlainNet(change.get("end"), clock)) == null, change);
            }
            case PORT_GONE -> {
                Map<String, String> gone = ports.remove(name);
                did(gone != null && gone.get("pad").equals(change.get("pad")), change);
            }
            case PORT_NEW -> {
                Map<String, String> facts = new TreeMap<>();
                List.of("pad", "setting", "direction").forEach(f -> facts.put(f, change.get(f)));
                did(ports.put(name, facts) == null, change);
            }
            case CELL_GONE -> {
                Map<String, String> gone = cells.remove(name);
                did(gone != null && gone.get("site").equals(change.get("site")), change);
            }
            case CELL_NEW -> {
                Map<String, String> facts = new TreeMap<>();
                List.of("site", "kind").forEach(f -> facts.put(f, change.get(f)));
                did(cells.put(name, facts) == null, change);
            }
            case CELL_MOVED ->
                    did(
                            cells.get(name)
                                    .put("site", change.get("site"))
                                    .equals(change.get("before")),
                            change);
            case CELL_SET -> {
                String setting = "setting " + change.get("setting");
                if (change.get("value").isEmpty()) {
                    did(cells.get(name).remove(setting) != null, change);
                } else {
                    cells.get(name).put(setting, change.get("value"));
                }
            }
            case DRIVER_SET ->
                    did(
                            ports.get(name)
                                    .put("setting", change.get("setting"))
                                    .equals(change.get("before")),
                            change);
            case ENABLE_TIED -> did(tied.add(change.get("pad")), change);
            case ENABLE_UNTIED -> did(tied.remove(change.get("pad")), change);
        }
    }

    private static void did(boolean done, Change change) {
        assertThat(done).as(change.toString()).isTrue();
    }

    /** Whether a net's signal stands at a pad's pin with the driver on. */
    boolean shows(String net, Pad pad) {
        PlainNet plain = nets.get(net);
        Map<String, String> from = new HashMap<>();
        plain.steps.forEach(s -> from.put(s.split(" > ")[1], s.split(" > ")[0]));
        String at = fabric.vertexName(pad.vertex());
        boolean comes = from.containsKey(at);
        while (from.containsKey(at)) {
            at = from.get(at);
        }
        boolean port =
                ports.entrySet().stream()
                        .anyMatch(
                                p ->
                                        p.getValue().get("pad").equals(pad.name())
                                                && plain.ends.contains("port " + p.getKey()));
        return comes && at.equals(vertexOf(plain.driver)) && port && isOn(pad);
    }

    private boolean isOn(Pad pad) {
        if (pad.enableSite() == Fabric.NOTHING) {
            return true;
        }
        SiteView view = fabric.site(pad.enableSite());
        String site = view.name();
        boolean cell = cells.values().stream().anyMatch(c -> c.get("site").equals(site));
        boolean net =
                nets.values().stream()
                        .flatMap(n -> n.steps.stream())
                        .anyMatch(
                                step ->
                                        IntStream.range(0, view.pins().size())
                                                .mapToObj(pin -> view.firstPin() + pin)
                                                .map(fabric::vertexName)
                                                .anyMatch(pin -> step.endsWith(" > " + pin)));
        boolean unconnectedOn = pad.enable().unconnected() == PadEnable.Unconnected.ON;
        return !cell && !net && (tied.contains(pad.name()) || unconnectedOn);
    }

    private String vertexOf(String end) {
        if (end.startsWith("port ")) {
            return ports.get(end.substring(5)).get("pad");
        }
        int dot = end.lastIndexOf('.');
        SiteView site = fabric.site(fabric.findSite(cells.get(end.substring(0, dot)).get("site")));
        return fabric.vertexName(site.findPin(end.substring(dot + 1)));
    }

    /** Everything, for comparison. */
    @Override
    public String toString() {
        return nets + "\n" + cells + "\n" + ports + "\n" + tied;
    }
}
