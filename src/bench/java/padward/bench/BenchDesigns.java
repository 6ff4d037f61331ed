package padward.bench;

import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.source.Source;
import padward.route.bound.TableAhead;
import padward.synth.DesignMaker;

/** Designs that benchmarks run on, and what is drawn from them. */
final class BenchDesigns {
    private BenchDesigns() {}

    /**
     * The design whose file the first argument names, read as commands read it that answer
     * questions; a made one of a million wires without.
     */
    static Design open(String[] args) throws BadInput {
        TableAhead ahead = new TableAhead(Corner.SLOW);
        return args.length > 0
                ? DesignReader.read(Source.of(Path.of(args[0])), ahead::begin, Progress.NONE)
                : DesignMaker.make(1_000_000, 9, 0.6, Progress.NONE).design();
    }

    /** Different nets that are routed and no clocks. */
    static List<Net> nets(Design design, Random random, int count) {
        return random.ints(0, design.nets().size())
                .distinct()
                .mapToObj(design.nets()::get)
                .filter(n -> !n.clock() && n.route().size() > 1)
                .limit(count)
                .toList();
    }
}
