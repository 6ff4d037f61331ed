package padward.breakout.wanted;

import java.util.List;

/**
 * A net that is wanted at the bench.
 *
 * @param net its name, as people write it
 * @param pads the pads that will do, the best first; empty when any will
 * @param must whether it must be seen, or only may
 */
public record WantedNet(String net, List<String> pads, boolean must) {
    /** Copies the pads. */
    public WantedNet {
        pads = List.copyOf(pads);
    }
}
