package padward.design.board;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What the board has on one pad.
 *
 * @param pad index of the pad in {@code fabric.pads()}
 * @param net name of the board's net
 * @param traceMillimetres length of the trace from the package to the farthest attachment, mm
 * @param layer where on the board the trace runs
 * @param loadPf capacitance of the trace and all that is on it, pF; 0 when not known
 * @param attachments what is on it
 */
public record PadWiring(
        int pad,
        String net,
        double traceMillimetres,
        Layer layer,
        double loadPf,
        List<Attachment> attachments) {
    /** Where a trace runs; signals are slower between planes. */
    public enum Layer {
        /** On the surface, over one plane. */
        OUTER,
        /** Between two planes. */
        INNER
    }

    /** Copies the attachments. */
    public PadWiring {
        attachments = List.copyOf(attachments);
    }

    /** One of whose capacitance nothing is known. */
    public PadWiring(int pad, String net, double traceMillimetres, List<Attachment> attachments) {
        this(pad, net, traceMillimetres, Layer.OUTER, 0, attachments);
    }

    /** Where a lead is put best: on a header, else on a test point. */
    public Optional<Attachment> findLeadPlace() {
        return attachments.stream()
                .filter(a -> a.kind().probeable())
                .min(Comparator.comparing(Attachment::kind));
    }
}
