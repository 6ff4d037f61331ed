package padward.format.ledger;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToIntFunction;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Lead;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.FileLimits;
import padward.format.source.Source;
import padward.format.source.Text;

/** Reads ledgers. Whether their edits fit a design is found out when they are applied. */
public final class LedgerReader {
    private static final Shape ENTRY =
            Shape.of(
                    "when!",
                    "who!",
                    "note",
                    "net!",
                    "pad!",
                    "edits!",
                    "accepted",
                    "leads",
                    "before!",
                    "after!");
    private static final Shape UNSIGNED =
            Shape.of("when!", "who!", "note", "net!", "pad!", "edits!", "accepted", "leads");
    private static final Shape LEAD = Shape.of("port!", "channel!", "name", "pod", "colour");
    private static final Shape ACCEPTANCE = Shape.of("what!", "who!", "when!");
    private static final Shape EDIT =
            Shape.of(
                    "do!", "port", "net", "cell", "site", "setting", "value", "from", "route",
                    "steps", "nets", "pad");
    private static final Shape ROUTED = Shape.of("net!", "from!", "steps!");

    private final ToIntFunction<String> vertices;
    private String design = "";
    private String digest = "";
    private List<LedgerEntry> entries = List.of();

    /**
     * @param vertices numbers the names of vertices; {@link Fabric#NOTHING} for unknown ones
     */
    private LedgerReader(ToIntFunction<String> vertices) {
        this.vertices = vertices;
    }

    /**
     * Reads a ledger.
     *
     * @param fabric the fabric whose vertices it names
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static Ledger read(Path file, Fabric fabric, Progress progress) throws BadInput {
        return read(Source.of(file), fabric::findVertex, progress);
    }

    /**
     * Reads a whole ledger without its fabric: every name that a vertex may have is taken for one.
     * Vertices have numbers of their own.
     *
     * @throws BadInput when the file cannot be read or has a fault
     */
    public static Ledger readAlone(Source source, Progress progress) throws BadInput {
        Map<String, Integer> numbers = new HashMap<>();
        return read(source, name -> numbers.computeIfAbsent(name, n -> numbers.size()), progress);
    }

    private static Ledger read(Source source, ToIntFunction<String> vertices, Progress progress)
            throws BadInput {
        FileHeader.expect(source, FileHeader.LEDGER);
        LedgerReader reader = new LedgerReader(vertices);
        new Passes()
                .part("format!", JsonIn::skip)
                .part("design!", in -> reader.design = in.name())
                .part("sha256!", in -> reader.digest = in.name())
                .part("entries!", in -> reader.entries = in.list(reader::readEntry))
                .run(source, progress);
        return new Ledger(reader.design, reader.digest, reader.entries);
    }

    /** The design's file that a ledger names; nothing else of it is read. */
    static String designOf(Path file) throws BadInput {
        String[] design = {""};
        new Passes()
                .part("format!", JsonIn::skip)
                .part("design!", in -> design[0] = in.name())
                .part("sha256!", JsonIn::skip)
                .part("entries!", JsonIn::skip)
                .run(Source.of(file), Progress.NONE);
        return design[0];
    }

    /** Reads an array of entries without digests at the stream's position. */
    static List<LedgerEntry> readUnsigned(JsonIn in, Fabric fabric) throws BadInput {
        LedgerReader reader = new LedgerReader(fabric::findVertex);
        return in.list(from -> reader.readEntry(from, UNSIGNED).unsigned());
    }

    private LedgerEntry readEntry(JsonIn in) throws BadInput {
        return readEntry(in, ENTRY);
    }

    private LedgerEntry readEntry(JsonIn in, Shape shape) throws BadInput {
        String when = "";
        String who = "";
        String note = "";
        String net = "";
        String pad = "";
        List<Edit> edits = List.of();
        List<LedgerEntry.Acceptance> accepted = List.of();
        List<Lead> leads = List.of();
        String before = "";
        String after = "";
        Members member = in.object(shape);
        while (member.next()) {
            switch (member.name()) {
                case "when" -> when = in.name();
                case "who" -> who = in.name();
                case "note" -> note = in.text(FileLimits.NOTE);
                case "net" -> net = in.name();
                case "pad" -> pad = in.name();
                case "edits" -> edits = in.list(this::readEdit);
                case "accepted" -> accepted = in.list(LedgerReader::readAcceptance);
                case "leads" -> leads = in.list(LedgerReader::readLead);
                case "before" -> before = in.name();
                default -> after = in.name();
            }
        }
        return new LedgerEntry(when, who, note, net, pad, edits)
                .withAccepted(accepted)
                .withLeads(leads)
                .signed(before, after);
    }

    private static Lead readLead(JsonIn in) throws BadInput {
        String port = "";
        int channel = 1;
        String name = "";
        String pod = "";
        String colour = "";
        Members member = in.object(LEAD);
        while (member.next()) {
            switch (member.name()) {
                case "port" -> port = in.name();
                case "channel" -> channel = in.integer(1, FileLimits.CHANNELS);
                case "name" -> name = in.word();
                case "pod" -> pod = in.word();
                default -> colour = in.word();
            }
        }
        return new Lead(port, channel, name, pod, colour);
    }

    private static LedgerEntry.Acceptance readAcceptance(JsonIn in) throws BadInput {
        String what = "";
        String who = "";
        String when = "";
        Members member = in.object(ACCEPTANCE);
        while (member.next()) {
            switch (member.name()) {
                case "what" -> what = in.word();
                case "who" -> who = in.name();
                default -> when = in.name();
            }
        }
        return new LedgerEntry.Acceptance(what, who, when);
    }

    /** What an edit's members say, before it is known which edit it is. */
    private static final class Parts {
        private String kind = "";
        private String port = "";
        private String net = "";
        private String cell = "";
        private String site = "";
        private String setting = "";
        private String value = "";
        private String pad = "";
        private int from = Fabric.NOTHING;
        private List<List<Integer>> steps = List.of();
        private List<Edit.RouteNet> nets = List.of();
        private List<Integer> route = List.of();
    }

    private Edit readEdit(JsonIn in) throws BadInput {
        Parts parts = new Parts();
        Members member = in.object(EDIT);
        while (member.next()) {
            switch (member.name()) {
                case "do" -> parts.kind = in.name();
                case "port" -> parts.port = in.name();
                case "net" -> parts.net = in.name();
                case "cell" -> parts.cell = in.name();
                case "site" -> parts.site = in.name();
                case "setting" -> parts.setting = in.word();
                case "value" -> parts.value = in.word();
                case "pad" -> parts.pad = in.name();
                case "from" -> parts.from = readVertex(in);
                case "steps" -> parts.steps = in.list(this::readVertices);
                case "nets" -> parts.nets = in.list(this::readRouted);
                default -> parts.route = readVertices(in);
            }
        }
        return switch (parts.kind) {
            case "disconnect-port" ->
                    new Edit.DisconnectPort(needed(in, member, "port", parts.port));
            case "remove-net" -> new Edit.RemoveNet(needed(in, member, "net", parts.net));
            case "remove-cell" -> new Edit.RemoveCell(needed(in, member, "cell", parts.cell));
            case "set-cell" ->
                    new Edit.SetCell(
                            needed(in, member, "cell", parts.cell),
                            needed(in, member, "setting", parts.setting),
                            needed(in, member, "value", parts.value));
            case "route-net" -> {
                needed(in, member, "from", "");
                yield routed(in, needed(in, member, "net", parts.net), parts.from, parts.steps);
            }
            case "relocate-cell" ->
                    new Edit.RelocateCell(
                            needed(in, member, "cell", parts.cell),
                            needed(in, member, "site", parts.site),
                            parts.nets);
            case "break-out" -> {
                needed(in, member, "route", "");
                yield new Edit.BreakOut(
                        needed(in, member, "net", parts.net),
                        needed(in, member, "port", parts.port),
                        needed(in, member, "pad", parts.pad),
                        parts.setting,
                        parts.route);
            }
            case "set-driver" ->
                    new Edit.SetDriver(
                            needed(in, member, "port", parts.port),
                            needed(in, member, "setting", parts.setting));
            case "tie-enable" -> new Edit.TieEnable(needed(in, member, "port", parts.port));
            default ->
                    throw in.fault(
                            "one of disconnect-port, remove-net, remove-cell, set-cell,"
                                    + " route-net, relocate-cell, break-out, set-driver,"
                                    + " tie-enable",
                            Text.quote(parts.kind));
        };
    }

    private static String needed(JsonIn in, Members member, String name, String value)
            throws BadInput {
        if (!member.has(name)) {
            throw in.fault("member " + Text.quote(name), "none");
        }
        return value;
    }

    private Edit.RouteNet readRouted(JsonIn in) throws BadInput {
        String net = "";
        int from = Fabric.NOTHING;
        List<List<Integer>> route = List.of();
        Members member = in.object(ROUTED);
        while (member.next()) {
            switch (member.name()) {
                case "net" -> net = in.name();
                case "from" -> from = readVertex(in);
                default -> route = in.list(this::readVertices);
            }
        }
        return routed(in, net, from, route);
    }

    private static Edit.RouteNet routed(JsonIn in, String net, int from, List<List<Integer>> route)
            throws BadInput {
        RouteTree.Builder tree = new RouteTree.Builder(from);
        try {
            for (List<Integer> branch : route) {
                for (int i = 1; i < branch.size(); i++) {
                    tree.add(branch.get(i - 1), branch.get(i));
                }
            }
        } catch (IllegalArgumentException fault) {
            throw in.fault("a route that is a tree", fault.getMessage());
        }
        return new Edit.RouteNet(net, tree.build());
    }

    private List<Integer> readVertices(JsonIn in) throws BadInput {
        List<Integer> result = new ArrayList<>();
        in.beginArray();
        while (in.more()) {
            result.add(readVertex(in));
        }
        in.endArray();
        return result;
    }

    private int readVertex(JsonIn in) throws BadInput {
        String name = in.name();
        int vertex = vertices.applyAsInt(name);
        if (vertex == Fabric.NOTHING) {
            throw in.fault("the name of a wire, pin or pad of the fabric", Text.quote(name));
        }
        return vertex;
    }
}
