package padward.cli.output;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import padward.breakout.group.ForwardedClock;
import padward.breakout.group.RegisteredGroup;
import padward.breakout.text.WhyText;
import padward.design.Design;
import padward.fabric.delay.Delay;
import padward.watch.answer.CircuitSetupHold;
import padward.watch.registered.FabricRegister;
import padward.watch.registered.RegisteredLines;

/** A group registered in IO registers, as text and as JSON. */
public final class RegisteredTable {
    private RegisteredTable() {}

    /**
     * Prints the group.
     *
     * @param clockMhz frequency of the clock, MHz; 0 when not known
     * @param placed whether its registers are placed
     */
    public static void print(
            Design design, RegisteredLines all, double clockMhz, boolean placed, PrintWriter out) {
        RegisteredGroup registered = all.inPads();
        out.println();
        out.println(
                all.inFabric().isEmpty() && all.forwarded().isEmpty()
                        ? "Registered in the pads' IO registers with clock "
                                + registered.clock().name()
                                + ", one period later:"
                        : "Registered with clock "
                                + registered.clock().name()
                                + ", one period later unless it says otherwise:");
        TextTable table =
                new TextTable(
                        "net",
                        "pad",
                        "remove first",
                        "from its driver",
                        "from the clock's",
                        "at the instrument",
                        "shortest period",
                        "hold met by",
                        "");
        for (RegisteredGroup.Line line : registered.lines()) {
            Optional<FabricRegister> inFabric = all.findInFabric(line.pad());
            if (inFabric.isPresent()) {
                table.row(inFabric(design, inFabric.get()));
                continue;
            }
            boolean isClock = line.net().id() == registered.clock().id();
            if (isClock && all.forwarded().isPresent()) {
                table.row(forwarded(design, line.pad(), all));
                continue;
            }
            boolean can = line.reason().isEmpty();
            table.row(
                    line.net().name(),
                    design.fabric().pads().get(line.pad()).name(),
                    line.toRemove().stream().map(WhyText::who).collect(Collectors.joining(", ")),
                    can ? line.data().toText() : "",
                    can ? line.clocked().toText() : "",
                    can ? line.atInstrument().toText() : "",
                    line.check().leastPeriod().map(p -> ns(Math.max(0, p.mostPs()))).orElse(""),
                    line.check().hold().map(h -> ns(h.leastPs())).orElse(""),
                    line.reason().map(h -> "not possible: " + h).orElse(""));
        }
        boolean listed =
                registered.lines().stream().anyMatch(l -> l.net().id() == registered.clock().id());
        if (!listed) {
            all.forwarded()
                    .flatMap(ForwardedClock.Result::found)
                    .ifPresent(c -> table.row(forwarded(design, c.pad(), all)));
        }
        table.print(out);
        double periodPs = clockMhz > 0 ? 1e6 / clockMhz : 0;
        all.inFabric().stream()
                .flatMap(f -> f.sentences(registered.clock().name(), periodPs).stream())
                .forEach(out::println);
        all.forwarded()
                .flatMap(ForwardedClock.Result::found)
                .ifPresent(c -> c.sentences(design).forEach(out::println));
        if (!listed) {
            all.forwarded()
                    .filter(f -> f.found().isEmpty())
                    .ifPresent(
                            f ->
                                    out.println(
                                            registered.clock().name()
                                                    + " is not forwarded: "
                                                    + f.reason()
                                                    + "."));
        }
        all.skew()
                .ifPresent(
                        s ->
                                out.printf(
                                        Locale.ROOT,
                                        "Greatest remaining skew at the instrument: %.3f ns:"
                                                + " %.3f ns at the fast corner, %.3f ns at the slow"
                                                + " corner, ± %.3f ns local variation, ± %.3f ns"
                                                + " package, board and leads.%n",
                                        s.mostPs() / 1000.0,
                                        s.fastPs() / 1000.0,
                                        s.slowPs() / 1000.0,
                                        s.localPs() / 1000.0,
                                        s.outsidePs() / 1000.0));
        Set<String> unknown = new TreeSet<>();
        registered.lines().forEach(l -> unknown.addAll(l.check().unknown()));
        if (!unknown.isEmpty()) {
            out.println(
                    "Setup and hold are not fully checked; not stated: "
                            + String.join(", ", unknown)
                            + ".");
        }
        boolean noOutput =
                registered.lines().stream()
                        .anyMatch(l -> l.reason().isEmpty() && l.check().clockToOutput().isEmpty());
        if (noOutput) {
            out.println("At the instrument: without the registers' clock-to-output, not stated.");
        }
        out.println(placedText(all, placed));
    }

    private static String[] forwarded(Design design, int pad, RegisteredLines all) {
        ForwardedClock.Result result = all.forwarded().orElseThrow();
        return new String[] {
            all.inPads().clock().name(),
            design.fabric().pads().get(pad).name(),
            "",
            "",
            result.found().map(c -> c.clocked().toText()).orElse(""),
            result.found().map(c -> c.atInstrument().toText()).orElse(""),
            "",
            "",
            result.found().isPresent()
                    ? "the clock, forwarded"
                    : "not possible: it is the clock itself, and " + result.reason()
        };
    }

    private static String[] inFabric(Design design, FabricRegister line) {
        Optional<CircuitSetupHold> check = line.check();
        return new String[] {
            line.net().name(),
            design.fabric().pads().get(line.pad()).name(),
            "",
            "",
            "",
            line.atInstrument().map(Delay::toText).orElse(""),
            check.flatMap(CircuitSetupHold::leastPeriodPs).map(p -> ns(Math.max(0, p))).orElse(""),
            check.flatMap(CircuitSetupHold::holdPs).map(RegisteredTable::ns).orElse(""),
            line.reason()
                    .map(why -> "not possible: " + why)
                    .orElse(
                            line.twoStages()
                                    ? "two registers, see below"
                                    : "in the fabric, see below")
        };
    }

    private static String placedText(RegisteredLines all, boolean placed) {
        RegisteredGroup registered = all.inPads();
        if (all.placed().isPresent()) {
            return placed
                    ? "The registers are placed."
                    : "No registers have been placed; with --ledger, they are.";
        }
        return registered.lines().stream().anyMatch(l -> !l.toRemove().isEmpty())
                ? "No registers have been placed: what uses their sites must be removed first."
                : "No registers have been placed.";
    }

    private static String ns(int ps) {
        return String.format(Locale.ROOT, "%.3f ns", ps / 1000.0);
    }
}
