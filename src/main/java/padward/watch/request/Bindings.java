package padward.watch.request;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.base.NearestName;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.PortDirection;
import padward.fabric.Pad;
import padward.watch.circuit.Signal;
import padward.watch.condition.ConditionNetNames;
import padward.watch.condition.ConditionParser;
import padward.watch.library.ClockChoice;
import padward.watch.own.Bound;
import padward.watch.own.NetlistLogic;
import padward.watch.request.CircuitSort.Part;

/**
 * Which nets the inputs of a netlist are: as stated, or those of the same names. An input that
 * clocks registers and for which nothing is stated gets the stated clock, or the one of the other
 * inputs' nets.
 */
final class Bindings {
    private static final String BIND = Part.BIND.option();
    private static final String CLOCK = "--clock";

    private final Design design;
    private final ConditionNetNames names;
    private final List<String> texts;
    private final Optional<String> clock;

    /** What is stated, by the name of the port. */
    private final Map<String, String> stated = new LinkedHashMap<>();

    Bindings(Design design, List<String> texts, Optional<String> clock) {
        this.design = design;
        this.names = ConditionNetNames.of(design);
        this.texts = texts;
        this.clock = clock;
    }

    Bound bound(NetlistLogic logic) throws BadInput {
        for (String text : texts) {
            state(text, logic.inputPorts());
        }
        Map<String, Signal> signals = new LinkedHashMap<>();
        for (String port : logic.dataPorts()) {
            signals.put(port, signal(port));
        }
        return new Bound(logic, signals, clocks(logic, signals));
    }

    /** Takes one text apart: a port, or a vector of ports and as many nets. */
    private void state(String text, List<String> ports) throws BadInput {
        int equals = text.indexOf('=');
        if (equals <= 0 || equals == text.length() - 1) {
            throw new BadInput(BIND, "", "INPUT=NET", "“" + text + "”");
        }
        String input = text.substring(0, equals).strip();
        String net = text.substring(equals + 1).strip();
        if (ports.contains(input)) {
            put(input, net);
            return;
        }
        List<String> bits =
                ports.stream()
                        .filter(p -> p.startsWith(input + "[") && p.endsWith("]"))
                        .sorted(Comparator.comparingInt(p -> number(p, input)))
                        .toList();
        if (bits.isEmpty()) {
            throw new BadInput(
                    BIND,
                    "",
                    "an input of the netlist" + (ports.isEmpty() ? "" : " (" + listed(ports) + ")"),
                    "“"
                            + input
                            + "”"
                            + NearestName.find(input, ports.stream())
                                    .map(n -> "; the nearest name is “" + n + "”")
                                    .orElse(""));
        }
        List<String> nets = ConditionParser.nets(BIND, net, names);
        if (nets.size() != bits.size()) {
            throw new BadInput(
                    BIND,
                    "",
                    bits.size() + (bits.size() == 1 ? " net" : " nets") + " for input " + input,
                    "“" + net + "”, " + (nets.size() == 1 ? "1 net" : nets.size() + " nets"));
        }
        for (int i = 0; i < bits.size(); i++) {
            put(bits.get(i), nets.get(i));
        }
    }

    private static int number(String port, String vector) {
        String digits = port.substring(vector.length() + 1, port.length() - 1);
        return digits.matches("\\d{1,9}") ? Integer.parseInt(digits) : Integer.MAX_VALUE;
    }

    private void put(String port, String net) throws BadInput {
        if (stated.putIfAbsent(port, net) != null) {
            throw new BadInput(
                    BIND, "", "each input of the netlist once", "a second net for " + port);
        }
    }

    /** What an input that cells read is. */
    private Signal signal(String port) throws BadInput {
        if (stated.containsKey(port)) {
            return signalAt(stated.get(port));
        }
        ConditionNetNames.Meaning meaning = names.meaning(port);
        if (meaning instanceof ConditionNetNames.Meaning.OneNet net) {
            return new Signal.Observed(net.name());
        }
        throw new BadInput(
                BIND,
                "",
                "a net for each input of the netlist, as “" + port + "=NET”",
                "none for input "
                        + port
                        + (meaning instanceof ConditionNetNames.Meaning.NotOne several
                                        && several.names().size() > 1
                                ? ", and several nets of that name"
                                : ", and no net of that name"));
    }

    /** A net, or a pad that can be read. */
    private Signal signalAt(String text) throws BadInput {
        boolean net = names.meaning(text) instanceof ConditionNetNames.Meaning.OneNet;
        if (!net && NameLookup.pad(design, text) instanceof NameLookup.Match.Found<Integer> found) {
            Pad pad = design.fabric().pads().get(found.value());
            boolean drives =
                    design.findPortOn(found.value())
                            .filter(p -> p.direction() != PortDirection.IN)
                            .isPresent();
            if (drives || !pad.directions().canRead()) {
                throw new BadInput(
                        BIND,
                        "",
                        "a net, or a pad that can be read",
                        pad.name() + (drives ? ", which the design drives" : ", output-only"));
            }
            return new Signal.AtPad(pad.name());
        }
        List<String> nets = ConditionParser.nets(BIND, text, names);
        if (nets.size() != 1) {
            throw new BadInput(BIND, "", "one net", "“" + text + "”, " + nets.size() + " nets");
        }
        return new Signal.Observed(nets.get(0));
    }

    private Map<String, String> clocks(NetlistLogic logic, Map<String, Signal> signals)
            throws BadInput {
        Map<String, String> result = new LinkedHashMap<>();
        List<String> left = new ArrayList<>();
        for (String port : logic.clockPorts()) {
            Optional<String> same = sameName(port);
            if (stated.containsKey(port)) {
                result.put(port, ClockChoice.stated(design, stated.get(port), BIND));
            } else if (clock.isEmpty() && same.isPresent()) {
                result.put(port, same.get());
            } else {
                left.add(port);
            }
        }
        if (left.size() > 1) {
            throw new BadInput(
                    BIND,
                    "",
                    "a net for each input that is a clock, as “" + left.get(0) + "=NET”",
                    "none for " + String.join(", ", left));
        }
        if (clock.isPresent() && left.isEmpty()) {
            throw new BadInput(
                    CLOCK,
                    "",
                    "a clock for an input that is none of those of --bind",
                    result.isEmpty() ? "a netlist without registers" : "no such input");
        }
        for (String port : left) {
            result.put(port, clock(signals));
        }
        return result;
    }

    private Optional<String> sameName(String port) {
        return names.meaning(port) instanceof ConditionNetNames.Meaning.OneNet net
                        && ClockChoice.isClock(design, net.name())
                ? Optional.of(net.name())
                : Optional.empty();
    }

    private String clock(Map<String, Signal> signals) throws BadInput {
        return clock.isPresent()
                ? ClockChoice.stated(design, clock.get(), CLOCK)
                : ClockChoice.ofNets(
                        design,
                        signals.values().stream()
                                .filter(Signal.Observed.class::isInstance)
                                .map(s -> ((Signal.Observed) s).net())
                                .toList(),
                        CLOCK);
    }

    private static String listed(List<String> ports) {
        return ports.stream().limit(ConditionNetNames.MOST_LISTED).collect(Collectors.joining(", "))
                + (ports.size() > ConditionNetNames.MOST_LISTED ? ", …" : "");
    }
}
