package padward.watch.request;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.design.PortDirection;
import padward.fabric.Pad;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Signal;
import padward.watch.condition.ConditionNetNames;
import padward.watch.library.AnyChange;
import padward.watch.library.ClockChoice;
import padward.watch.library.Count;
import padward.watch.library.Divide;
import padward.watch.library.Event;
import padward.watch.library.Own;
import padward.watch.library.Parity;
import padward.watch.library.Recipe;
import padward.watch.library.Registered;
import padward.watch.library.Select;
import padward.watch.library.Signature;
import padward.watch.library.Sticky;
import padward.watch.library.Stretch;
import padward.watch.library.Synchronised;
import padward.watch.library.Toggle;
import padward.watch.library.Trigger;
import padward.watch.own.NetlistLogic;
import padward.watch.request.CircuitSort.Part;

/**
 * A circuit of the library as somebody asks for it, in texts that mean something only in a design.
 * Faults name the option of the part that is at fault.
 *
 * @param sort which circuit
 * @param nets names of nets or vectors, or patterns of nets
 * @param when the condition that it shows or counts
 * @param reset the condition under which it begins again
 * @param steer nets or pads whose levels choose, the lowest bit first
 * @param number the divisor, or the number of cycles
 * @param clock the clock of its registers; otherwise that of the nets
 * @param registered whether a register stands before the pad, where that is a choice
 * @param own the netlist, where it is one of the user's own
 */
public record CircuitRequest(
        CircuitSort sort,
        List<String> nets,
        Optional<String> when,
        Optional<String> reset,
        List<String> steer,
        Optional<Integer> number,
        Optional<String> clock,
        boolean registered,
        Optional<OwnPart> own) {
    private static final String CLOCK = "--clock";

    /** Copies the lists. */
    public CircuitRequest {
        nets = List.copyOf(nets);
        steer = List.copyOf(steer);
    }

    /** One of those that need no netlist. */
    public CircuitRequest(
            CircuitSort sort,
            List<String> nets,
            Optional<String> when,
            Optional<String> reset,
            List<String> steer,
            Optional<Integer> number,
            Optional<String> clock,
            boolean registered) {
        this(sort, nets, when, reset, steer, number, clock, registered, Optional.empty());
    }

    /** The same with a netlist of the user's own. */
    public CircuitRequest with(OwnPart netlist) {
        return new CircuitRequest(
                sort, nets, when, reset, steer, number, clock, registered, Optional.of(netlist));
    }

    /** The same without a register before the pad, if it has one that it can do without. */
    public Optional<CircuitRequest> smaller() {
        return sort.has(Part.REGISTERED) && registered
                ? Optional.of(
                        new CircuitRequest(
                                sort, nets, when, reset, steer, number, clock, false, own))
                : Optional.empty();
    }

    /** The full names of the nets that it observes, in their order. */
    List<String> watched(Design design) throws BadInput {
        return nets(design);
    }

    /** The same with these nets, and with as many of those that choose as they need. */
    CircuitRequest withNets(List<String> names) {
        int bits = Math.min(steer.size(), Select.bits(names.size()));
        return new CircuitRequest(
                sort, names, when, reset, steer.subList(0, bits), number, clock, registered, own);
    }

    /**
     * The circuit, for a design.
     *
     * @throws BadInput when something is missing, or names what is not there
     */
    public Circuit circuit(Design design) throws BadInput {
        return recipe(design).circuit(CircuitKinds.of(design.fabric().info()));
    }

    private Recipe recipe(Design design) throws BadInput {
        return switch (sort) {
            case TRIGGER -> trigger(design);
            case SELECT -> {
                List<String> chosen = nets(design);
                yield new Select(chosen, steer(design), clockIfRegistered(design, chosen));
            }
            case COUNT -> {
                List<String> shown = nets(design);
                yield new Count(shown, clock(design, shown), number(Part.CYCLES));
            }
            case DIVIDE -> {
                Optional<Event> counted = event(design, Part.WHEN, when);
                yield new Divide(clock(design, netsOf(counted)), number(Part.DIVISOR), counted);
            }
            case TOGGLE -> {
                Event event = needed(design, Part.WHEN, when);
                yield new Toggle(event, clock(design, netsOf(event)));
            }
            case STRETCH -> {
                Event event = needed(design, Part.WHEN, when);
                yield new Stretch(event, clock(design, netsOf(event)), number(Part.CYCLES));
            }
            case STICKY -> {
                Event event = needed(design, Part.WHEN, when);
                yield new Sticky(
                        event, clock(design, netsOf(event)), event(design, Part.RESET, reset));
            }
            case SYNC -> {
                // The clock of a net that is to be synchronised is not the one to use.
                String net = net(design);
                yield new Synchronised(net, clock(design, List.of()));
            }
            case REGISTER -> {
                String net = net(design);
                yield new Registered(net, clock(design, List.of(net)));
            }
            case ANY -> {
                List<String> seen = nets(design);
                yield new AnyChange(seen, clock(design, seen));
            }
            case PARITY -> {
                List<String> seen = nets(design);
                yield new Parity(seen, clockIfRegistered(design, seen));
            }
            case SIGNATURE -> {
                List<String> seen = nets(design);
                yield new Signature(
                        seen,
                        clock(design, seen),
                        needed(design, Part.RESET, reset),
                        event(design, Part.WHEN, when));
            }
            case OWN -> own(design);
        };
    }

    private Recipe own(Design design) throws BadInput {
        if (own.isEmpty()) {
            throw new BadInput(Part.NETLIST.option(), "", "the netlist for own", "none");
        }
        return new Own(
                new Bindings(design, own.get().bindings(), clock)
                        .bound(new NetlistLogic(own.get().netlist())));
    }

    private Recipe trigger(Design design) throws BadInput {
        Event event = needed(design, Part.WHEN, when);
        boolean clocked = registered || event.condition().needsClock();
        Optional<String> found =
                clocked ? Optional.of(clock(design, netsOf(event))) : Optional.empty();
        return new Trigger(event, found, registered);
    }

    private Optional<String> clockIfRegistered(Design design, List<String> seen) throws BadInput {
        return registered ? Optional.of(clock(design, seen)) : Optional.empty();
    }

    private static List<String> netsOf(Optional<Event> event) {
        return event.map(CircuitRequest::netsOf).orElse(List.of());
    }

    private static List<String> netsOf(Event event) {
        return List.copyOf(event.condition().nets());
    }

    private List<String> nets(Design design) throws BadInput {
        if (nets.isEmpty()) {
            throw new BadInput(Part.NETS.option(), "", "the nets for " + sort.label(), "none");
        }
        return WatchedNets.of(design, nets, Part.NETS.option());
    }

    private String net(Design design) throws BadInput {
        List<String> all = nets(design);
        if (all.size() != 1) {
            throw new BadInput(
                    Part.NETS.option(), "", "one net for " + sort.label(), all.size() + " nets");
        }
        return all.get(0);
    }

    private String clock(Design design, List<String> observed) throws BadInput {
        return clock.isEmpty()
                ? ClockChoice.ofNets(design, observed, CLOCK)
                : ClockChoice.stated(design, clock.get(), CLOCK);
    }

    private int number(Part part) throws BadInput {
        if (number.isEmpty()) {
            throw new BadInput(part.option(), "", "a number for " + sort.label(), "none");
        }
        return number.get();
    }

    private static Optional<Event> event(Design design, Part part, Optional<String> text)
            throws BadInput {
        return text.isEmpty()
                ? Optional.empty()
                : Optional.of(Event.of(part.option(), text.get(), ConditionNetNames.of(design)));
    }

    private Event needed(Design design, Part part, Optional<String> text) throws BadInput {
        return event(design, part, text)
                .orElseThrow(
                        () ->
                                new BadInput(
                                        part.option(),
                                        "",
                                        "a condition for " + sort.label(),
                                        "none"));
    }

    private List<Signal> steer(Design design) throws BadInput {
        List<Signal> result = new ArrayList<>();
        for (String text : steer) {
            result.add(steer(design, text));
        }
        return result;
    }

    /** A pad that can be read, or else a net: an output port may have the name of its net. */
    private static Signal steer(Design design, String text) throws BadInput {
        String option = Part.STEER.option();
        if (!(NameLookup.pad(design, text) instanceof NameLookup.Match.Found<Integer> found)) {
            return new Signal.Observed(NameLookup.requireNet(design, text, option).name());
        }
        Pad pad = design.fabric().pads().get(found.value());
        boolean drives =
                design.findPortOn(found.value())
                        .filter(p -> p.direction() != PortDirection.IN)
                        .isPresent();
        if (!drives && pad.directions().canRead()) {
            return new Signal.AtPad(pad.name());
        }
        if (NameLookup.net(design, text) instanceof NameLookup.Match.Found<Net> net) {
            return new Signal.Observed(net.value().name());
        }
        throw new BadInput(
                option,
                "",
                "a net, or a pad that can be read",
                pad.name() + (drives ? ", which the design drives" : ", output-only"));
    }
}
