package padward.fabric.explicit;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.longs.LongList;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.SwitchGroups;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.delay.Delay;

/** Groups of switches, as they are stored, answer what plain maps by names do. */
class SwitchGroupsProperties {
    private static final int SIDE = 4;

    private record Ends(String from, String to) {}

    /** A drawn fabric and its groups by names. */
    private static final class Drawn {
        final ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("odd", "invented", List.of(), List.of(), List.of()),
                        SIDE,
                        SIDE);
        final List<String> wires = new ArrayList<>();
        final Set<Ends> joints = new HashSet<>();
        final Map<Ends, String> groupOf = new LinkedHashMap<>();
        final Random random;

        Drawn(long seed) {
            random = new Random(seed);
            int count = 2 + random.nextInt(30);
            for (int i = 0; i < count; i++) {
                int tile = random.nextInt(SIDE * SIDE);
                String place = "x" + tile % SIDE + "y" + tile / SIDE;
                String name = random.nextBoolean() ? place + "/w" + i : "ö ƒ" + i;
                wires.add(name);
                builder.addWire(name, tile, random.nextInt(SIDE * SIDE), "");
            }
            List<Ends> switches = drawEdges();
            for (int i = random.nextInt(12); i > 0; i--) {
                drawGroup(switches, "x" + random.nextInt(SIDE) + "y1/mux" + i);
            }
        }

        private List<Ends> drawEdges() {
            Set<Ends> all = new HashSet<>();
            for (int i = random.nextInt(150); i > 0; i--) {
                String from = wires.get(random.nextInt(wires.size()));
                String to = wires.get(random.nextInt(wires.size()));
                boolean joint = random.nextInt(20) == 0;
                if (!from.equals(to) && all.add(new Ends(from, to))) {
                    EdgeKind kind = joint ? EdgeKind.CONNECTION : EdgeKind.SWITCH;
                    builder.addEdge(number(from), number(to), kind, Delay.ZERO);
                    if (joint) {
                        joints.add(new Ends(from, to));
                    }
                }
            }
            all.removeAll(joints);
            return new ArrayList<>(all);
        }

        private int number(String wire) {
            return builder.findVertex(wire);
        }

        /** All switches into some wires, out of some, or any. */
        private void drawGroup(List<Ends> switches, String name) {
            Set<String> some = new HashSet<>();
            for (int i = 1 + random.nextInt(3); i > 0; i--) {
                some.add(wires.get(random.nextInt(wires.size())));
            }
            int how = random.nextInt(3);
            for (Ends each : switches) {
                boolean member =
                        switch (how) {
                            case 0 -> some.contains(each.to());
                            case 1 -> some.contains(each.from());
                            default -> random.nextInt(8) == 0;
                        };
                if (member) {
                    boolean isNew = !groupOf.containsKey(each);
                    assertThat(
                                    builder.addToSwitchGroup(
                                            name, number(each.from()), number(each.to())))
                            .isEqualTo(isNew);
                    groupOf.putIfAbsent(each, name);
                }
            }
        }
    }

    static LongStream seeds() {
        return LongStream.range(0, 500);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void groupsAreWhatWasStated(long seed) throws IOException {
        Drawn drawn = new Drawn(seed);
        ExplicitFabric fabric = drawn.builder.build();
        assertThat(drawn.builder.noSwitches()).isEmpty();
        require(drawn, fabric);
        require(drawn, read(copy(fabric)));
    }

    private static void require(Drawn drawn, Fabric fabric) {
        SwitchGroups groups = fabric.switchGroups();
        assertThat(groups.isEmpty()).isEqualTo(drawn.groupOf.isEmpty());
        Map<String, Set<Ends>> members = new HashMap<>();
        drawn.groupOf.forEach(
                (ends, name) -> members.computeIfAbsent(name, n -> new HashSet<>()).add(ends));
        assertThat(groups.count()).isEqualTo(members.size());
        for (int group = 0; group < groups.count(); group++) {
            LongList switches = groups.switches(group);
            assertThat(switches.toLongArray()).isSorted();
            Set<Ends> found = new HashSet<>();
            switches.forEach(s -> found.add(ends(fabric, EdgeKey.from(s), EdgeKey.to(s))));
            assertThat(found).hasSize(switches.size()).isEqualTo(members.get(groups.name(group)));
        }
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                int group = groups.groupOf(v, edges.other());
                String name = group == Fabric.NOTHING ? null : groups.name(group);
                assertThat(name).isEqualTo(drawn.groupOf.get(ends(fabric, v, edges.other())));
            }
        }
    }

    private static Ends ends(Fabric fabric, int from, int to) {
        return new Ends(fabric.vertexName(from), fabric.vertexName(to));
    }

    private static byte[] copy(ExplicitFabric fabric) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        CompactOut out = new CompactOut(bytes, Progress.NONE);
        fabric.write(out);
        out.finish();
        return bytes.toByteArray();
    }

    private static ExplicitFabric read(byte[] bytes) throws IOException {
        CompactIn in = new CompactIn(new ByteArrayInputStream(bytes), bytes.length, Progress.NONE);
        ExplicitFabric fabric = ExplicitFabric.read(in);
        in.end();
        return fabric;
    }

    /** Behind a right digest there may be anything: it is refused, or it answers. */
    @ParameterizedTest
    @MethodSource("seeds")
    void aDamagedCopyIsRefusedOrAnswers(long seed) throws IOException {
        Drawn drawn = new Drawn(seed);
        byte[] bytes = copy(drawn.builder.build());
        for (int i = 0; i < 200; i++) {
            byte[] damaged = bytes.clone();
            int at = drawn.random.nextInt(bytes.length);
            damaged[at] = (byte) drawn.random.nextInt(256);
            ExplicitFabric fabric;
            try {
                fabric = read(damaged);
            } catch (IOException refused) {
                continue;
            }
            SwitchGroups groups = fabric.switchGroups();
            for (int group = 0; group < groups.count(); group++) {
                for (long one : groups.switches(group)) {
                    assertThat(EdgeKey.from(one)).isBetween(0, fabric.vertexCount() - 1);
                    assertThat(EdgeKey.to(one)).isBetween(0, fabric.vertexCount() - 1);
                }
            }
            EdgeCursor edges = fabric.edgesOut();
            for (int v = 0; v < fabric.vertexCount(); v++) {
                edges.reset(v);
                while (edges.next()) {
                    assertThat(groups.groupOf(v, edges.other()))
                            .isBetween(Fabric.NOTHING, groups.count() - 1);
                }
            }
        }
    }
}
