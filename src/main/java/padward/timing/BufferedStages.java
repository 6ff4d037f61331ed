package padward.timing;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.design.RouteTree;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.pad.Electrical;
import padward.fabric.pad.Electrical.SwitchLoad;
import padward.fabric.pad.Electrical.WireLoad;

/**
 * A net's tree cut into stages: each begins at the net's driver or behind a buffered switch, and
 * goes on through switches that restore nothing. A stage is one {@link RcTree}, so whatever hangs
 * on any part of it slows all of it.
 *
 * <p>The delay of the edge that leads into a stage is the fabric's own and covers the buffer and
 * the bare first wire. What the stage adds is Elmore's delay of the whole less that of the bare
 * first wire: an estimate that was never too little in drawn stages of ordinary values, but no
 * bound, since the bare wire takes less than its Elmore delay as well. Pass-throughs restore the
 * signal.
 */
final class BufferedStages {
    /** Ohms times femtofarads are femtoseconds. */
    private static final double FS_PER_PS = 1000;

    private final Fabric fabric;
    private final Electrical electrical;
    private final RouteTree tree;

    /** By place: the stage and the node of the stage at the wire's far end. */
    private final Stage[] stages;

    private final int[] nodes;

    /** By place: the stage that the edge into it begins and its delay, if it begins one. */
    private final Delay[] entries;

    /** One stage at both corners. */
    private static final class Stage {
        final RcTree fast = new RcTree();
        final RcTree slow = new RcTree();
        double[] fastFs;
        double[] slowFs;

        RcTree at(Corner corner) {
            return corner == Corner.FAST ? fast : slow;
        }

        void calculate() {
            fastFs = fast.elmore();
            slowFs = slow.elmore();
        }

        /** Elmore's delay of the bare first wire: its nodes are 0 and 1. */
        double bareFs(Corner corner, AtCorners wireFarads) {
            RcTree rc = at(corner);
            double half = wireFarads.at(corner) / 2.0;
            return rc.resistance(0) * 2 * half + rc.resistance(1) * half;
        }
    }

    private BufferedStages(Fabric fabric, RouteTree tree) {
        this.fabric = fabric;
        this.electrical = fabric.info().electrical();
        this.tree = tree;
        this.stages = new Stage[tree.size()];
        this.nodes = new int[tree.size()];
        this.entries = new Delay[tree.size()];
    }

    /** The delay at each place of a tree. O(size × edges at a vertex). */
    static Delay[] delays(Fabric fabric, RouteTree tree) {
        BufferedStages stages = new BufferedStages(fabric, tree);
        stages.cut();
        return stages.add();
    }

    private void cut() {
        EdgeFinder finder = new EdgeFinder(fabric);
        List<Stage> all = new ArrayList<>();
        begin(all, 0, farads(0), wire(kind(tree.root())).map(WireLoad::ohms));
        entries[0] = Delay.ZERO;
        for (int place = 1; place < tree.size(); place++) {
            int parent = tree.parent(place);
            EdgeFinder.EdgeValue edge = finder.get(tree.vertex(parent), tree.vertex(place));
            Optional<SwitchLoad> load =
                    edge.kind() == EdgeKind.PASS_THROUGH
                            ? Optional.empty()
                            : electrical.findSwitch(
                                    kind(tree.vertex(parent)), kind(tree.vertex(place)));
            if (load.isPresent() && !load.get().buffered()) {
                goOn(place, load.get());
            } else {
                load.ifPresent(l -> hang(parent, l.femtofarads()));
                begin(all, place, farads(place), load.map(SwitchLoad::ohms));
                entries[place] = edge.delay();
            }
        }
        all.forEach(Stage::calculate);
    }

    private void begin(List<Stage> all, int place, AtCorners farads, Optional<AtCorners> drive) {
        Stage stage = new Stage();
        AtCorners source = drive.orElse(AtCorners.ZERO);
        AtCorners along = place == 0 ? AtCorners.ZERO : ohms(place);
        for (Corner corner : Corner.values()) {
            nodes[place] =
                    stage.at(corner)
                            .addWire(-1, source.at(corner), 0, along.at(corner), farads.at(corner));
        }
        stages[place] = stage;
        all.add(stage);
    }

    private void goOn(int place, SwitchLoad load) {
        int parent = tree.parent(place);
        stages[place] = stages[parent];
        AtCorners along = ohms(place);
        AtCorners farads = farads(place);
        for (Corner corner : Corner.values()) {
            nodes[place] =
                    stages[place]
                            .at(corner)
                            .addWire(
                                    nodes[parent],
                                    load.ohms().at(corner),
                                    load.femtofarads().at(corner),
                                    along.at(corner),
                                    farads.at(corner));
        }
    }

    private void hang(int place, AtCorners farads) {
        for (Corner corner : Corner.values()) {
            stages[place].at(corner).load(nodes[place], farads.at(corner));
        }
    }

    private Delay[] add() {
        Delay[] result = new Delay[tree.size()];
        // The delay with which each stage begins, by the place of its first wire.
        Delay[] begun = new Delay[tree.size()];
        int[] first = new int[tree.size()];
        for (int place = 0; place < tree.size(); place++) {
            if (entries[place] != null) {
                first[place] = place;
                begun[place] =
                        place == 0 ? Delay.ZERO : result[tree.parent(place)].plus(entries[place]);
            } else {
                first[place] = first[tree.parent(place)];
            }
            Stage stage = stages[place];
            AtCorners bare = farads(first[place]);
            int fast = addedPs(stage.fastFs[nodes[place]], stage, Corner.FAST, bare);
            int slow = addedPs(stage.slowFs[nodes[place]], stage, Corner.SLOW, bare);
            result[place] = begun[first[place]].plus(new Delay(fast, Math.max(fast, slow)));
        }
        return result;
    }

    private static int addedPs(double elmoreFs, Stage stage, Corner corner, AtCorners bare) {
        double added = elmoreFs - stage.bareFs(corner, bare);
        return Delay.ps(Math.max(0, Math.round(added / FS_PER_PS)));
    }

    private Optional<WireLoad> wire(String kind) {
        return electrical.findWire(kind);
    }

    private AtCorners ohms(int place) {
        // A pin's ohms are what it drives with, which does not resist what feeds it.
        return fabric.kind(tree.vertex(place)) == VertexKind.WIRE
                ? wire(kind(tree.vertex(place))).map(WireLoad::ohms).orElse(AtCorners.ZERO)
                : AtCorners.ZERO;
    }

    private AtCorners farads(int place) {
        if (place == 0) {
            return AtCorners.ZERO;
        }
        return wire(kind(tree.vertex(place))).map(WireLoad::femtofarads).orElse(AtCorners.ZERO);
    }

    private String kind(int vertex) {
        return switch (fabric.kind(vertex)) {
            case WIRE -> fabric.wireKind(vertex);
            case PIN -> Electrical.PIN;
            case PAD -> Electrical.PAD;
        };
    }
}
