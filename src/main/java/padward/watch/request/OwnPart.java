package padward.watch.request;

import java.util.List;
import padward.watch.own.OwnNetlist;

/**
 * What has to be said of a circuit of the user's own.
 *
 * @param netlist the netlist
 * @param bindings what its inputs are, each as a text {@code input=net}
 */
public record OwnPart(OwnNetlist netlist, List<String> bindings) {
    /** Copies the list. */
    public OwnPart {
        bindings = List.copyOf(bindings);
    }
}
