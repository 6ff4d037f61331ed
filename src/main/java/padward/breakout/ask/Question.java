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
import padward.design.PortDirection;
import padward.fabric.Corner;
import padward.fabric.Pad;

/**
 * "How does this net get out to that pad?"
 *
 * @param design the finished design
 * @param net the net to bring out
 * @param pad index of the pad in {@code fabric.pads()}
 * @param corner corner at which the route has the shortest delay
 * @param driver what is wanted of the pad's driver
 */
public record Question(Design design, Net net, int pad, Corner corner, DriverWish driver) {
    /** A question that leaves the driver's setting to the pad's bank. */
    public Question(Design design, Net net, int pad, Corner corner) {
        this(design, net, pad, corner, DriverWish.NONE);
    }

    /** The same question about another state of the design. */
    public Question on(Design other, Net there) {
        return new Question(other, there, pad, corner, driver);
    }

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

    /**
     * The questions that a second design answers: one for each net of the first that it shows on a
     * pad through a port which the first has not there. O(ports).
     */
    public static List<Question> ofNewOutputs(Design before, Design after) {
        List<Question> result = new ArrayList<>();
        for (Port port : after.ports()) {
            boolean there =
                    before.findPortOn(port.pad())
                            .filter(p -> p.name().equals(port.name()))
                            .isPresent();
            if (there || port.direction() == PortDirection.IN) {
                continue;
            }
            for (Net net : after.netsAtPort(port.id())) {
                before.findNet(net.name())
                        .map(n -> new Question(before, n, port.pad(), Corner.SLOW))
                        .ifPresent(result::add);
            }
        }
        return result;
    }

    /** What the board has on the pad; nothing when that is not known. */
    public List<Attachment> attached() {
        return design.board().findWiring(pad).map(PadWiring::attachments).orElse(List.of());
    }
}
