package padward.design.compact;

import java.io.IOException;
import java.util.BitSet;
import padward.design.Port;
import padward.design.PortDirection;
import padward.fabric.Fabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/** The ports of a design in a compact copy: each on a pad of its own. */
final class PortParts {
    private final CompactIn in;
    private final Fabric fabric;
    private final BitSet padsUsed = new BitSet();
    private int next;

    PortParts(CompactIn in, Fabric fabric) {
        this.in = in;
        this.fabric = fabric;
    }

    static void write(CompactOut out, Port port) throws IOException {
        out.name(port.name());
        out.constant(port.direction());
        out.smallNumber(port.pad());
        out.text(port.setting());
        out.flag(port.enableTied());
    }

    Port read() throws IOException {
        String name = in.name();
        PortDirection direction = in.constant(PortDirection.class);
        int pad = in.smallNumber(fabric.pads().size() - 1);
        Damaged.unless(!padsUsed.get(pad), "two ports on a pad");
        padsUsed.set(pad);
        String setting = in.text();
        Damaged.unless(
                setting.isEmpty() || fabric.info().findSetting(setting).isPresent(),
                "an unknown setting");
        return new Port(next++, name, direction, pad, setting, in.flag());
    }
}
