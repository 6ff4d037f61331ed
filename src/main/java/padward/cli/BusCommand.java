package padward.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.BenchSheet;
import padward.breakout.Bus;
import padward.breakout.Cautions;
import padward.breakout.Question;
import padward.design.Attachment;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Glob;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.design.Net;
import padward.design.PadWiring;
import padward.design.Trial;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.format.Digest;
import padward.format.LedgerFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bus}: several nets at once. */
@Command(
        name = "bus",
        mixinStandardHelpOptions = true,
        description = {
            "Brings several nets out at once, on pads of its choice among those given, over ways that",
            "do not meet. Tells each line's delay at both corners and the skew between them."
        },
        footer = {
            "",
            "Example:",
            "  padward bus --design fixtures/small/only.design.json \\",
            "      --nets 'pump/level/sample[*]' --pads 'header J1'"
        })
final class BusCommand implements Callable<Integer> {
    private static final int MOST_PAIRS = 8;

    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Option(
            names = {"-n", "--nets"},
            required = true,
            paramLabel = "NETS",
            description =
                    "A net, or a pattern with * and ?; may be given several times. Vectors count up.")
    private List<String> nets = List.of();

    @Option(
            names = {"-p", "--pads"},
            required = true,
            split = ",",
            paramLabel = "PADS",
            description =
                    "Pads that may be taken: 'header NAME', 'bank NAME', or pads as ask takes them,"
                            + " with commas between.")
    private List<String> pads = List.of();

    @Option(
            names = "--aim",
            defaultValue = "sum",
            description =
                    "What the choice of pads goes by: sum, worst, skew, or order"
                            + " (${DEFAULT-VALUE}).")
    private Bus.Aim aim;

    @Mixin private LeadOption leadOption;
    private BenchSheet.Lead lead;

    @Option(
            names = {"-l", "--ledger"},
            paramLabel = "FILE",
            description = "Keeps what is served in a ledger, and asks on what it holds already.")
    private Path ledger;

    @Option(names = "--json", description = "Prints the answer as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        lead = leadOption.read();
        Design read = design.read();
        PrintWriter out = spec.commandLine().getOut();
        boolean[] all = {false};
        if (ledger == null) {
            all[0] = answer(read, out).left().isEmpty();
        } else {
            LedgerFile.change(
                    ledger,
                    design.file(),
                    read.fabric(),
                    old -> {
                        Design now = LedgerTable.apply(old, read, ledger);
                        Bus bus = answer(now, out);
                        all[0] = bus.left().isEmpty();
                        return bus.lines().isEmpty() ? old : kept(old, now, bus);
                    });
        }
        out.flush();
        return all[0] ? Padward.DONE : Padward.NOT_OPEN;
    }

    private Bus answer(Design now, PrintWriter out) throws BadInput {
        Bus bus = Bus.of(now, netsOf(now), padsOf(now), aim, Progress.NONE);
        if (json) {
            out.println(AnswerJson.text(json(now, bus)));
        } else {
            print(now, bus, out);
        }
        return bus;
    }

    private Ledger kept(Ledger old, Design now, Bus bus) throws BadInput {
        LedgerEntry entry =
                new LedgerEntry(
                        OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString(),
                        System.getProperty("user.name", "unknown"),
                        "a group of " + bus.lines().size(),
                        String.join(" ", nets),
                        String.join(",", pads),
                        bus.edits(),
                        Digest.of(now),
                        Digest.of(Trial.of(now, bus.edits())));
        return old.with(entry);
    }

    private List<Net> netsOf(Design read) throws BadInput {
        Set<Net> result = new LinkedHashSet<>();
        for (String text : nets) {
            Glob glob = Glob.of(text);
            List<Net> fitting =
                    read.nets().stream()
                            .filter(n -> n.name().equals(text) || glob.matches(n.name()))
                            .sorted(Comparator.comparing(BusCommand::sortKey))
                            .toList();
            if (fitting.isEmpty()) {
                String expected = "the name of a net, or a pattern that fits some";
                throw new BadInput("--nets", "", expected, "“" + text + "”");
            }
            result.addAll(fitting);
        }
        return List.copyOf(result);
    }

    /** Members of a vector by number: digits padded, so that 10 comes after 9. */
    private static String sortKey(Net net) {
        StringBuilder key = new StringBuilder();
        for (String part : net.name().split("(?<=\\D)(?=\\d)|(?<=\\d)(?=\\D)")) {
            boolean number = !part.isEmpty() && Character.isDigit(part.charAt(0));
            key.append(number ? "0".repeat(Math.max(0, 12 - part.length())) + part : part);
        }
        return key.toString();
    }

    private List<Integer> padsOf(Design read) throws BadInput {
        Set<Integer> result = new LinkedHashSet<>();
        for (String text : pads) {
            String plain = text.strip();
            if (plain.startsWith("header ")) {
                result.addAll(onHeader(read, plain.substring(7).strip()));
            } else if (plain.startsWith("bank ")) {
                result.addAll(inBank(read, plain.substring(5).strip()));
            } else {
                result.add(DesignOption.pad(read, plain));
            }
        }
        if (result.isEmpty()) {
            throw new BadInput("--pads", "", "at least one pad", "none");
        }
        return List.copyOf(result);
    }

    private static List<Integer> inBank(Design read, String bank) throws BadInput {
        List<Integer> result = new ArrayList<>();
        for (int i = 0; i < read.fabric().pads().size(); i++) {
            if (read.fabric().pads().get(i).bank().equals(bank)) {
                result.add(i);
            }
        }
        if (result.isEmpty()) {
            throw new BadInput("--pads", "", "a bank that has pads", "“" + bank + "”");
        }
        return result;
    }

    /** The pads on a header, in the order of its pins. */
    private static List<Integer> onHeader(Design read, String header) throws BadInput {
        record Place(int pad, String pin) {}
        List<Place> places = new ArrayList<>();
        for (PadWiring wiring : read.board().wirings()) {
            for (Attachment attached : wiring.attachments()) {
                if (attached.kind().probeable() && attached.name().equals(header)) {
                    places.add(new Place(wiring.pad(), attached.pin()));
                }
            }
        }
        if (places.isEmpty()) {
            String expected = "a header or test point of the board";
            throw new BadInput("--pads", "", expected, "“" + header + "”");
        }
        places.sort(
                Comparator.comparingInt((Place p) -> p.pin().length()).thenComparing(Place::pin));
        return places.stream().map(Place::pad).toList();
    }

    private Delay atInstrument(Design read, Bus.Line line) {
        int outside = lead.delayPs(read, line.pad());
        return line.way().total().plus(new Delay(outside, outside));
    }

    private void print(Design read, Bus bus, PrintWriter out) {
        TextTable table =
                new TextTable(
                        "net",
                        "pad",
                        "pin",
                        "header",
                        "outside the pad",
                        "at the instrument",
                        "correct by");
        int latest =
                bus.lines().stream().mapToInt(l -> middlePs(atInstrument(read, l))).max().orElse(0);
        for (Bus.Line line : bus.lines()) {
            Delay there = atInstrument(read, line);
            table.row(
                    line.net().name(),
                    Bus.padOf(read, line).name(),
                    Bus.padOf(read, line).packagePin(),
                    header(read, line.pad()),
                    line.way().total().toText(),
                    there.toText(),
                    String.format("%+.3f ns", (latest - middlePs(there)) / 1000.0));
        }
        if (!bus.lines().isEmpty()) {
            table.print(out);
        }
        for (Bus.Left left : bus.left()) {
            out.println("Not served: " + left.net().name() + ": " + left.reason() + ".");
        }
        if (bus.lines().isEmpty()) {
            return;
        }
        printSkew(read, bus, out);
        out.println();
        out.println("What it takes:");
        bus.edits().stream().map(Edit::toText).forEach(e -> out.println("  " + e));
        out.println();
        out.println("Cautions:");
        Set<String> cautions = new LinkedHashSet<>();
        for (Bus.Line line : bus.lines()) {
            Question question = new Question(read, line.net(), line.pad(), Corner.SLOW);
            for (String caution : Cautions.of(question)) {
                cautions.add(Bus.padOf(read, line).name() + ": " + caution);
            }
        }
        cautions.forEach(c -> out.println("  - " + c));
    }

    private static int middlePs(Delay delay) {
        return (delay.fastPs() + delay.slowPs()) / 2;
    }

    private static void printSkew(Design read, Bus bus, PrintWriter out) {
        List<Bus.Skew> skews = bus.skews();
        if (skews.isEmpty()) {
            return;
        }
        Bus.Skew worst = skews.get(0);
        out.println();
        out.printf(
                "Greatest skew outside the pads: %.3f ns across the corners, between %s and %s.%n",
                worst.acrossPs() / 1000.0, worst.one().net().name(), worst.other().net().name());
        TextTable table = new TextTable("between", "and", "both fast", "both slow", "one of each");
        for (Bus.Skew skew : skews.subList(0, Math.min(MOST_PAIRS, skews.size()))) {
            table.row(
                    skew.one().net().name(),
                    skew.other().net().name(),
                    ns(skew.fastPs()),
                    ns(skew.slowPs()),
                    ns(skew.acrossPs()));
        }
        table.print(out);
        if (skews.size() > MOST_PAIRS) {
            out.println("and " + (skews.size() - MOST_PAIRS) + " pairs with less");
        }
        double gap = 100.0 * (bus.totalPs() - bus.alonePs()) / Math.max(1, bus.alonePs());
        out.printf(
                "Sum of slow delays %.3f ns; each net alone to its pad would take %.3f ns: at most"
                        + " %.1f %% could be gained on these pads.%n",
                bus.totalPs() / 1000.0, bus.alonePs() / 1000.0, gap);
        if (read.board().wirings().isEmpty()) {
            out.println("No board is described: traces are not reckoned.");
        }
    }

    private static String ns(int ps) {
        return String.format("%.3f ns", ps / 1000.0);
    }

    private static String header(Design read, int pad) {
        return read.board()
                .findWiring(pad)
                .flatMap(PadWiring::findLeadPlace)
                .map(Attachment::toShortText)
                .orElse("");
    }

    private JsonObject json(Design read, Bus bus) {
        JsonObject result = new JsonObject();
        result.addProperty("format", "padward-bus/1");
        JsonArray lines = new JsonArray();
        for (Bus.Line line : bus.lines()) {
            JsonObject one = new JsonObject();
            one.addProperty("net", line.net().name());
            one.addProperty("pad", Bus.padOf(read, line).name());
            one.add("instrument_ps", AnswerJson.delay(atInstrument(read, line)));
            AnswerJson.addWay(line.way(), one);
            lines.add(one);
        }
        result.add("lines", lines);
        JsonArray left = new JsonArray();
        for (Bus.Left one : bus.left()) {
            JsonObject net = new JsonObject();
            net.addProperty("net", one.net().name());
            net.addProperty("reason", one.reason());
            left.add(net);
        }
        result.add("left", left);
        JsonArray skews = new JsonArray();
        for (Bus.Skew skew : bus.skews()) {
            JsonObject one = new JsonObject();
            one.addProperty("one", skew.one().net().name());
            one.addProperty("other", skew.other().net().name());
            one.addProperty("fast_ps", skew.fastPs());
            one.addProperty("slow_ps", skew.slowPs());
            one.addProperty("across_ps", skew.acrossPs());
            skews.add(one);
        }
        result.add("skews", skews);
        result.addProperty("total_ps", bus.totalPs());
        result.addProperty("alone_ps", bus.alonePs());
        JsonArray edits = new JsonArray();
        bus.edits().forEach(e -> edits.add(e.toText()));
        result.add("edits", edits);
        return result;
    }
}
