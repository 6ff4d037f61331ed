package padward.breakout.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.change.Edit;
import padward.design.Attachment;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.PadWiring;
import padward.design.Port;
import padward.fabric.Corner;
import padward.fabric.Pad;

/**
 * "How does this net get out to that pad?"
 *
 * @param design the finished design
 * @param net the net to bring out
 * @param pad index of the pad in {@code fabric.pads()}
 * @param corner corner at which the route has the shortest delay
 */
public record Question(Design design, Net net, int pad, Corner corner) {
    /** The pad itself. */
    public Pad padValue() {
        return design.fabric().pads().get(pad);
    }

    /** Whether the net is on the pad already, so that there is nothing to bring out. */
    public boolean isThere() {
        return net.route().placeOf(padValue().vertex()) >= 0;
    }

    /** The port that loses the pad when the net is brought out there, whatever its direction. */
    public Optional<Port> losingPort() {
        return isThere() ? Optional.empty() : design.findPortOn(pad);
    }

    /**
     * The questions that edits answer: one for each net that they bring out. Nets and pads that the
     * design does not have are left out.
     */
    public static List<Question> ofBreakOuts(Design before, List<Edit> edits) {
        List<Question> result = new ArrayList<>();
        for (Edit edit : edits) {
            if (edit instanceof Edit.BreakOut out) {
                Optional<Net> net = before.findNet(out.net());
                OptionalInt pad = PadNames.findExact(before.fabric(), out.pad());
                if (net.isPresent() && pad.isPresent()) {
                    result.add(new Question(before, net.get(), pad.getAsInt(), Corner.SLOW));
                }
            }
        }
        return result;
    }

    /** What the board has on the pad; nothing when that is not known. */
    public List<Attachment> attached() {
        return design.board().findWiring(pad).map(PadWiring::attachments).orElse(List.of());
    }
}
