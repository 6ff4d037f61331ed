package padward.cli.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.base.BadInput;
import padward.breakout.group.GroupNames;
import padward.cli.option.DesignOption;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.design.PortDirection;
import padward.fabric.Pad;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Signal;
import padward.watch.condition.NetNames;
import padward.watch.library.Changes;
import padward.watch.library.ClockChoice;
import padward.watch.library.Count;
import padward.watch.library.Divide;
import padward.watch.library.Event;
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
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The options that state a watch circuit. */
public final class CircuitOption {
    /** The circuits of the library. */
    enum Sort {
        TRIGGER,
        SELECT,
        COUNT,
        DIVIDE,
        TOGGLE,
        STRETCH,
        STICKY,
        SYNC,
        REGISTER,
        ANY,
        PARITY,
        SIGNATURE;

        String label() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Parameters(
            index = "0",
            paramLabel = "CIRCUIT",
            description = {
                "trigger: high while --when is true",
                "select: one of --nets, chosen by levels at --by",
                "count: each of --nets in turn for --cycles; a second pad marks the first",
                "divide: the clock, or the cycles in which --when is true, divided --by a number",
                "toggle: changes its level each time --when becomes true",
                "stretch: high for --cycles after --when",
                "sticky: high from the first --when on, until --reset",
                "sync: a net of another clock, through two registers",
                "register: a net, through one register",
                "any: high for a cycle after any of --nets has changed",
                "parity: high while an odd number of --nets is high",
                "signature: a checksum of --nets over many cycles, from --reset on"
            })
    private Sort sort;

    @Option(
            names = {"-n", "--nets"},
            paramLabel = "NETS",
            description =
                    "A net, or a pattern with * and ?; may be repeated. The bits of a vector are "
                            + "taken in ascending order.")
    private List<String> nets = List.of();

    @Option(
            names = "--when",
            paramLabel = "CONDITION",
            description =
                    "A condition over nets and vectors, such as 'count[7:0] == 8h3F && !beep'; "
                            + "see docs/watch-library.md.")
    private String when;

    @Option(
            names = "--reset",
            paramLabel = "CONDITION",
            description = "The condition under which sticky or signature begins again.")
    private String reset;

    @Option(
            names = "--by",
            split = ",",
            paramLabel = "BY",
            description =
                    "select: what chooses, the lowest bit first: nets, or pads that are read, "
                            + "separated by commas. divide: a number from 2 to 65536.")
    private List<String> by = List.of();

    @Option(
            names = "--cycles",
            paramLabel = "N",
            description = "stretch, count: how many cycles of the clock.")
    private Integer cycles;

    @Option(
            names = {"-c", "--clock"},
            paramLabel = "NET",
            description =
                    "The clock of the circuit's registers. Otherwise that of the registers that "
                            + "drive the nets, or the only one of the design.")
    private String clock;

    @Option(
            names = "--combinational",
            description =
                    "trigger, select, parity: no register before the pad; shows glitches, and needs "
                            + "no clock.")
    private boolean combinational;

    /** A smaller variant of the same circuit, if it has one. */
    Optional<CircuitOption> smaller() {
        boolean has = sort == Sort.TRIGGER || sort == Sort.SELECT || sort == Sort.PARITY;
        if (!has || combinational) {
            return Optional.empty();
        }
        CircuitOption result = new CircuitOption();
        result.sort = sort;
        result.nets = nets;
        result.when = when;
        result.by = by;
        result.clock = clock;
        result.combinational = true;
        return Optional.of(result);
    }

    /** The circuit, for a design. */
    Circuit circuit(Design design) throws BadInput {
        return recipe(design).circuit(CircuitKinds.of(design.fabric().info()));
    }

    private Recipe recipe(Design design) throws BadInput {
        return switch (sort) {
            case TRIGGER -> trigger(design);
            case SELECT -> {
                List<String> chosen = nets(design);
                yield new Select(chosen, steer(design), unlessCombinational(design, chosen));
            }
            case COUNT -> {
                List<String> shown = nets(design);
                yield new Count(shown, clock(design, shown), cycles());
            }
            case DIVIDE -> {
                Optional<Event> counted = event(design, "--when", when);
                yield new Divide(clock(design, netsOf(counted)), number(), counted);
            }
            case TOGGLE -> {
                Event event = needed(design, "--when", when);
                yield new Toggle(event, clock(design, netsOf(event)));
            }
            case STRETCH -> {
                Event event = needed(design, "--when", when);
                yield new Stretch(event, clock(design, netsOf(event)), cycles());
            }
            case STICKY -> {
                Event event = needed(design, "--when", when);
                yield new Sticky(
                        event, clock(design, netsOf(event)), event(design, "--reset", reset));
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
                yield new Changes(seen, clock(design, seen));
            }
            case PARITY -> {
                List<String> seen = nets(design);
                yield new Parity(seen, unlessCombinational(design, seen));
            }
            case SIGNATURE -> {
                List<String> seen = nets(design);
                yield new Signature(
                        seen,
                        clock(design, seen),
                        needed(design, "--reset", reset),
                        event(design, "--when", when));
            }
        };
    }

    private Recipe trigger(Design design) throws BadInput {
        Event event = needed(design, "--when", when);
        boolean clocked = !combinational || event.condition().needsClock();
        Optional<String> found =
                clocked ? Optional.of(clock(design, netsOf(event))) : Optional.empty();
        return new Trigger(event, found, !combinational);
    }

    private Optional<String> unlessCombinational(Design design, List<String> seen) throws BadInput {
        return combinational ? Optional.empty() : Optional.of(clock(design, seen));
    }

    private static List<String> netsOf(Optional<Event> event) {
        return event.map(CircuitOption::netsOf).orElse(List.of());
    }

    private static List<String> netsOf(Event event) {
        return List.copyOf(event.condition().nets());
    }

    private List<String> nets(Design design) throws BadInput {
        if (nets.isEmpty()) {
            throw new BadInput("--nets", "", "the nets for " + sort.label(), "none");
        }
        return GroupNames.nets(design, nets, "--nets").stream().map(Net::name).toList();
    }

    private String net(Design design) throws BadInput {
        List<String> all = nets(design);
        if (all.size() != 1) {
            throw new BadInput("--nets", "", "one net for " + sort.label(), all.size() + " nets");
        }
        return all.get(0);
    }

    private String clock(Design design, List<String> observed) throws BadInput {
        return clock == null
                ? ClockChoice.ofNets(design, observed, "--clock")
                : ClockChoice.stated(design, clock, "--clock");
    }

    private int cycles() throws BadInput {
        if (cycles == null) {
            throw new BadInput("--cycles", "", "a number for " + sort.label(), "none");
        }
        return cycles;
    }

    private int number() throws BadInput {
        try {
            return Integer.parseInt(String.join(",", by));
        } catch (NumberFormatException e) {
            throw new BadInput(
                    "--by",
                    "",
                    "a number from 2 to 65536",
                    by.isEmpty() ? "none" : "“" + String.join(",", by) + "”");
        }
    }

    private static Optional<Event> event(Design design, String option, String text)
            throws BadInput {
        return text == null
                ? Optional.empty()
                : Optional.of(Event.of(option, text, NetNames.of(design)));
    }

    private Event needed(Design design, String option, String text) throws BadInput {
        return event(design, option, text)
                .orElseThrow(
                        () -> new BadInput(option, "", "a condition for " + sort.label(), "none"));
    }

    private List<Signal> steer(Design design) throws BadInput {
        List<Signal> result = new ArrayList<>();
        for (String text : by) {
            result.add(steer(design, text));
        }
        return result;
    }

    /** A pad that can be read, or else a net: an output port may have the name of its net. */
    private static Signal steer(Design design, String text) throws BadInput {
        if (!(NameLookup.pad(design, text) instanceof NameLookup.Match.Found<Integer> found)) {
            return new Signal.Observed(DesignOption.net("--by", design, text).name());
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
                "--by",
                "",
                "a net, or a pad that can be read",
                pad.name() + (drives ? ", which the design drives" : ", output-only"));
    }
}
