package padward.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;

/** What the page on formats says of every design, checked by plain sets: slow and simple. */
final class PlainRules {
    private PlainRules() {}

    static void check(Design design) {
        Set<String> names = new HashSet<>();
        Set<Integer> sites = new HashSet<>();
        for (Cell cell : design.cells()) {
            assertThat(names.add("cell " + cell.name())).as(cell.name()).isTrue();
            assertThat(sites.add(cell.site())).as("site of " + cell.name()).isTrue();
        }
        Map<Integer, String> user = new HashMap<>();
        for (Net net : design.nets()) {
            assertThat(names.add("net " + net.name())).as(net.name()).isTrue();
            checkTree(design.fabric(), net, user);
        }
        design.ports()
                .forEach(p -> assertThat(names.add("port " + p.name())).as(p.name()).isTrue());
    }

    private static void checkTree(Fabric fabric, Net net, Map<Integer, String> user) {
        RouteTree route = net.route();
        Set<Integer> reached = new HashSet<>(Set.of(route.root()));
        EdgeCursor edges = fabric.edgesOut();
        for (int place = 1; place < route.size(); place++) {
            int from = route.vertex(route.parent(place));
            int to = route.vertex(place);
            assertThat(reached).as("begin of a wire of " + net.name()).contains(from);
            assertThat(reached.add(to)).as("a wire of " + net.name() + " twice").isTrue();
            boolean there = false;
            edges.reset(from);
            while (!there && edges.next()) {
                there = edges.other() == to;
            }
            assertThat(there).as("a connection of " + net.name()).isTrue();
        }
        for (int vertex : reached) {
            String other = user.putIfAbsent(vertex, net.name());
            assertThat(other).as(fabric.vertexName(vertex) + ", " + net.name()).isNull();
        }
    }
}
