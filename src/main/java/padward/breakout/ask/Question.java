package padward.breakout.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;

/**
 * "How does this net get out to that pad?"
 *
 * @param design the finished design
 * @param net the net to bring out
 * @param pad index of the pad in {@code fabric.pads()}
 * @param corner corner at which the route has the shortest delay
 * @param driver what is wanted of the pad's driver
 */
public record Question(Design design, Net net, int pad, Corner corner, WantedDriver driver) {
    /** A question that leaves the driver's setting to the pad's bank. */
    public Question(Design design, Net net, int pad, Corner corner) {
        this(design, net, pad, corner, WantedDriver.NONE);
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
        return design.occupancy()
                .findNetOn(padValue().vertex())
                .filter(n -> n.id() == net.id())
                .isPresent();
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
        Design design = withAdded(before, edits);
        for (Edit edit : edits) {
            if (edit instanceof Edit.BreakOut out) {
                Optional<Net> net = design.findNet(out.net());
                OptionalInt pad = PadNames.findExact(before.fabric(), out.pad());
                if (net.isPresent() && pad.isPresent()) {
                    result.add(new Question(design, net.get(), pad.getAsInt(), Corner.SLOW));
                }
            }
        }
        return result;
    }

    /** The design with the nets that edits add, which they can bring out too. */
    private static Design withAdded(Design before, List<Edit> edits) {
        if (edits.stream().noneMatch(Question::adds)) {
            return before;
        }
        List<Edit> added = edits.stream().filter(Question::adds).toList();
        List<Edit> inside = edits.stream().filter(e -> !AnswerEdits.bringsOut(e)).toList();
        for (List<Edit> some : List.of(added, inside)) {
            if (Outcome.of(before, some) instanceof Outcome.Applied applied) {
                return applied.design();
            }
        }
        return before;
    }

    private static boolean adds(Edit edit) {
        return edit instanceof Edit.AddCell
                || edit instanceof Edit.AddNet
                || edit instanceof Edit.AddSink
                || edit instanceof Edit.AddInput;
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
                        .or(() -> ofNewNet(after, port, net))
                        .ifPresent(result::add);
            }
        }
        return result;
    }

    /** About a net that the first design has not: as if it were not yet on the pad. */
    private static Optional<Question> ofNewNet(Design after, Port port, Net net) {
        Outcome outcome = Outcome.of(after, List.of(new Edit.DisconnectPort(port.name())));
        return outcome instanceof Outcome.Applied applied
                ? applied.design()
                        .findNet(net.name())
                        .map(n -> new Question(applied.design(), n, port.pad(), Corner.SLOW))
                : Optional.empty();
    }

    /** What the board has on the pad; nothing when that is not known. */
    public List<Attachment> attached() {
        return design.board().findWiring(pad).map(PadWiring::attachments).orElse(List.of());
    }
}
