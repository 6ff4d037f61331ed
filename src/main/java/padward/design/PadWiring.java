package padward.design;

import java.util.List;

/**
 * What the board has on one pad.
 *
 * @param pad index of the pad in {@code fabric.pads()}
 * @param net name of the board's net
 * @param traceMillimetres length of the trace from the package to the farthest attachment, mm
 * @param attachments what is on it
 */
public record PadWiring(
        int pad, String net, double traceMillimetres, List<Attachment> attachments) {
    /** Copies the attachments. */
    public PadWiring {
        attachments = List.copyOf(attachments);
    }
}
