package padward.fabric.compact;

import java.io.IOException;
import java.util.List;
import padward.fabric.Pad;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadDriving;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;

/** The pads of a fabric in a compact copy. */
public final class PadParts {
    private PadParts() {}

    /** Writes them. */
    public static void write(CompactOut out, List<Pad> pads) throws IOException {
        out.list(
                pads,
                pad -> {
                    out.text(pad.name());
                    out.number(pad.vertex());
                    out.number(pad.tile());
                    out.text(pad.packagePin());
                    out.text(pad.bank());
                    out.constant(pad.directions());
                    out.number(pad.dataSite());
                    out.number(pad.enableSite());
                    out.text(pad.defaultSetting());
                    writeUse(out, pad.use());
                    out.constant(pad.enable().active());
                    out.constant(pad.enable().unconnected());
                });
    }

    /**
     * Reads them.
     *
     * @param tiles how many tiles there are
     * @param vertices how many vertices
     * @param sites how many sites
     */
    public static List<Pad> read(CompactIn in, int tiles, int vertices, int sites)
            throws IOException {
        return in.list(
                () ->
                        new Pad(
                                in.text(),
                                in.number(0, vertices - 1),
                                in.number(0, tiles - 1),
                                in.text(),
                                in.text(),
                                in.constant(PadDirections.class),
                                in.number(-1, sites - 1),
                                in.number(-1, sites - 1),
                                in.text(),
                                readUse(in),
                                new PadEnable(
                                        in.constant(PadEnable.Active.class),
                                        in.constant(PadEnable.Unconnected.class))));
    }

    private static void writeUse(CompactOut out, PadUse use) throws IOException {
        out.constant(use.bonding());
        out.constant(use.role());
        CompactFabricInfo.write(out, use.packageDelay());
        out.flag(use.driving().inverts());
        out.list(use.driving().settings(), out::text);
        out.text(use.driving().partner());
    }

    private static PadUse readUse(CompactIn in) throws IOException {
        return new PadUse(
                in.constant(PadUse.Bonding.class),
                in.constant(PadUse.Role.class),
                CompactFabricInfo.readDelay(in),
                new PadDriving(in.flag(), in.textList(), in.text()));
    }
}
