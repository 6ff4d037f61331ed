package padward.breakout.ask;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.design.board.Attachment;
import padward.unblock.move.Consequence;
import padward.unblock.move.DelayChange;
import padward.unblock.release.FanOut;
import padward.unblock.release.LostEndpoint;
import padward.unblock.weigh.Removal;

/**
 * What an answer costs at the bench: in the design, on the board, and in delay. The one value that
 * all commands and views ask, so that they agree.
 *
 * @param ports the ports that lose their pads
 * @param follows parts on the board that will follow a net that is brought out
 * @param drives parts on the board that drive a pad against the chip
 * @param obstacles what must be removed or moved
 * @param moved nets that are rerouted, with the delays of the sinks that change most
 * @param lost endpoints that lose their signal, the ports first
 */
public record Price(
        List<LosingPort> ports,
        List<Follower> follows,
        List<Opponent> drives,
        List<Cleared> obstacles,
        List<DelayChange> moved,
        List<LostEndpoint> lost) {
    /** Of what costs nobody anything. */
    public static final Price NOTHING =
            new Price(List.of(), List.of(), List.of(), List.of(), List.of(), List.of());

    /** Copies the lists. */
    public Price {
        ports = List.copyOf(ports);
        follows = List.copyOf(follows);
        drives = List.copyOf(drives);
        obstacles = List.copyOf(obstacles);
        moved = List.copyOf(moved);
        lost = List.copyOf(lost);
    }

    /**
     * A port that loses its pad.
     *
     * @param out the net that leaves the chip by it; empty when there is none
     * @param in the net that enters the chip by it; empty when there is none
     */
    public record LosingPort(
            String name, PortDirection direction, Optional<String> out, Optional<String> in) {
        /** A port of a design with its nets. */
        public static LosingPort of(Design design, Port port) {
            Terminal end = new Terminal.PortEnd(port.id());
            List<Net> nets = design.netsAtPort(port.id());
            return new LosingPort(
                    port.name(),
                    port.direction(),
                    nets.stream().filter(n -> n.sinks().contains(end)).map(Net::name).findFirst(),
                    nets.stream().filter(n -> n.driver().equals(end)).map(Net::name).findFirst());
        }
    }

    /**
     * A part on the board that listens to a pad.
     *
     * @param pad the pad's name
     * @param part the part
     * @param net the net that it will follow
     */
    public record Follower(String pad, Attachment part, String net) {}

    /**
     * A part on the board that drives a pad.
     *
     * @param pad the pad's name
     * @param part the part
     */
    public record Opponent(String pad, Attachment part) {}

    /**
     * An obstacle with what happens to it.
     *
     * @param occupant the obstacle
     * @param fate what happens
     */
    public record Cleared(Occupant occupant, Fate fate) {}

    /** What happens to an obstacle. */
    public enum Fate {
        /** It only serves the port that loses its pad. */
        REMOVABLE("removable"),
        /** It makes room and still does its work. */
        MOVABLE("movable"),
        /** It is removed, and endpoints lose their signal. */
        LOSES_FUNCTION("loses-function"),
        /** Whether it can be moved has not been examined. */
        NOT_EXAMINED("not-examined");

        private final String label;

        Fate(String label) {
            this.label = label;
        }

        /** The word in files. */
        public String label() {
            return label;
        }

        private static Fate of(Consequence consequence) {
            if (consequence instanceof Consequence.Removable) {
                return REMOVABLE;
            }
            return consequence instanceof Consequence.Movable ? MOVABLE : LOSES_FUNCTION;
        }
    }

    /** What an answer costs; of an explained blocked one, its best option to unblock. */
    public static Price of(Answer answer) {
        if (answer instanceof Answer.NoRoute) {
            return NOTHING;
        }
        if (!(answer instanceof Answer.Blocked blocked)) {
            return ofPad(answer.question());
        }
        Optional<WhyBlocked.Option> best =
                blocked.why().stream().flatMap(w -> w.options().stream()).findFirst();
        return best.map(o -> of(blocked.question(), o.option().removals()))
                .orElseGet(() -> quick(blocked));
    }

    /** What a question costs with the obstacles removed that one of its options names. */
    public static Price of(Question question, List<Removal> removals) {
        List<Cleared> obstacles = new ArrayList<>();
        List<DelayChange> moved = new ArrayList<>();
        List<LostEndpoint> lost = new ArrayList<>();
        for (Removal removal : removals) {
            Consequence consequence = removal.consequence();
            obstacles.add(new Cleared(removal.occupant(), Fate.of(consequence)));
            if (consequence instanceof Consequence.Movable movable) {
                moved.addAll(movable.delayChanges());
            } else if (consequence instanceof Consequence.LosesFunction loses) {
                lost.addAll(loses.lost());
            }
        }
        return ofPad(question)
                .plus(new Price(List.of(), List.of(), List.of(), obstacles, moved, lost));
    }

    private static Price quick(Answer.Blocked blocked) {
        List<Cleared> obstacles =
                blocked.obstacles().stream()
                        .map(
                                o ->
                                        new Cleared(
                                                o.occupant(),
                                                o.removable() ? Fate.REMOVABLE : Fate.NOT_EXAMINED))
                        .toList();
        return ofPad(blocked.question())
                .plus(new Price(List.of(), List.of(), List.of(), obstacles, List.of(), List.of()));
    }

    /** What the pad alone costs, whatever the route to it. */
    public static Price ofPad(Question question) {
        if (question.isThere()) {
            return NOTHING;
        }
        String pad = question.padValue().name();
        String net = question.net().name();
        List<Follower> follows = new ArrayList<>();
        List<Opponent> drives = new ArrayList<>();
        for (Attachment part : question.attached()) {
            if (part.kind().listens()) {
                follows.add(new Follower(pad, part, net));
            }
            if (part.kind().drives()) {
                drives.add(new Opponent(pad, part));
            }
        }
        List<LosingPort> ports = new ArrayList<>();
        List<LostEndpoint> lost = new ArrayList<>();
        for (Port port : question.losingPort().stream().toList()) {
            ports.add(LosingPort.of(question.design(), port));
            lost.add(new LostEndpoint(LostEndpoint.Kind.PORT, port.name()));
            lost.addAll(fedBy(port, question));
        }
        return new Price(ports, follows, drives, List.of(), List.of(), lost);
    }

    /** The endpoints that get their signal from a port that the design reads. */
    private static List<LostEndpoint> fedBy(Port port, Question question) {
        if (port.direction() == PortDirection.OUT) {
            return List.of();
        }
        return question.design().netsAtPort(port.id()).stream()
                .filter(n -> n.driver().equals(new Terminal.PortEnd(port.id())))
                .flatMap(n -> fanOut(question).losing(Occupant.ofNet(n.id())).stream())
                .toList();
    }

    private static FanOut fanOut(Question question) {
        return new FanOut(question.design(), question.net(), Optional.empty(), question.padValue());
    }

    /** What the pads cost on which edits bring nets out, whatever the routes to them. */
    public static Price ofPads(Design before, List<Edit> edits) {
        return Question.ofBreakOuts(before, edits).stream()
                .map(Price::ofPad)
                .reduce(NOTHING, Price::plus);
    }

    /** Both together; what is in both counts once. */
    public Price plus(Price other) {
        return new Price(
                union(ports, other.ports),
                union(follows, other.follows),
                union(drives, other.drives),
                union(obstacles, other.obstacles),
                union(moved, other.moved),
                union(lost, other.lost));
    }

    private static <T> List<T> union(List<T> one, List<T> other) {
        Set<T> result = new LinkedHashSet<>(one);
        result.addAll(other);
        return List.copyOf(result);
    }

    /** Whether it costs nobody anything: neither the design nor the board. */
    public boolean isNothing() {
        return equals(NOTHING);
    }

    /** Whether the design reads the board through a pad that is taken. */
    public boolean takesInput() {
        return ports.stream().anyMatch(p -> p.direction() != PortDirection.OUT);
    }

    /** What somebody must accept before this is kept, in the order of gravity. */
    public Set<Caution.Kind> toAccept() {
        Set<Caution.Kind> result = new TreeSet<>();
        if (!drives.isEmpty()) {
            result.add(Caution.Kind.DRIVES);
        }
        if (!follows.isEmpty()) {
            result.add(Caution.Kind.FOLLOWS);
        }
        if (takesInput()) {
            result.add(Caution.Kind.READS);
        }
        return result;
    }
}
