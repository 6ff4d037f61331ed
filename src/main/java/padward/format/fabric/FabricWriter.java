package padward.format.fabric;

import java.nio.file.Path;
import padward.base.BadInput;
import padward.fabric.Fabric;

/** Writes any fabric in the explicit form. */
public final class FabricWriter {
    private FabricWriter() {}

    /**
     * Writes a file, compressed when its name ends in {@code .gz}.
     *
     * @throws BadInput when it cannot be written
     */
    public static void write(Fabric fabric, Path file) throws BadInput {
        new ExplicitForm(fabric).form().write(file, fabric);
    }
}
