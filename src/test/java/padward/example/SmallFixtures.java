package padward.example;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.format.BoardFiles;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricReader;

/**
 * Writes the design files of the small example into the folder with its fabrics and board: {@code
 * mvn test -Dtest=SmallFixturesTest -Dwrite.fixtures=true}.
 */
public final class SmallFixtures {
    private SmallFixtures() {}

    /** The two fabrics' names. */
    public static final String[] NAMES = {"only", "around"};

    /** The design as it is built now, on one of the fabrics. */
    public static Design build(Path folder, String name) throws BadInput {
        Fabric fabric = FabricReader.read(folder.resolve(name + ".fabric.json"), Progress.NONE);
        return BilgePump.on(fabric, BoardFiles.read(folder.resolve("board.json"), fabric));
    }

    /** Writes one design file. */
    public static void write(Path folder, String name, Path target) throws BadInput {
        DesignWriter.write(build(folder, name), target, name + ".fabric.json", "board.json");
    }

    /** Writes the design of the lesson on data and enable. */
    public static void writeTideGauge(Path folder, Path target) throws BadInput {
        Fabric fabric = FabricReader.read(folder.resolve("gated.fabric.json"), Progress.NONE);
        Design design =
                TideGauge.on(fabric, BoardFiles.read(folder.resolve("plover.board.json"), fabric));
        DesignWriter.write(design, target, "gated.fabric.json", "plover.board.json");
    }
}
