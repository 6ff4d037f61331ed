package padward.format.design;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Attachment;
import padward.design.AttachmentKind;
import padward.design.Board;
import padward.design.Header;
import padward.design.Levels;
import padward.design.PadWiring;
import padward.fabric.Fabric;
import padward.format.fabric.PadLookup;
import padward.format.json.EnumWords;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.Members;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.FileLimits;
import padward.format.source.Source;

/** Reads boards from JSON files. */
public final class BoardReader {
    private static final Shape WIRING =
            Shape.of("pad", "packagePin", "net", "trace_mm", "load_pf", "attached");
    private static final Shape ATTACHED =
            Shape.of("kind!", "name!", "pin", "millivolts", "most_mv", "series_ohms");
    private static final Shape HEADER =
            Shape.of("name!", "pins!", "rows!", "numbering!", "seen!", "grounds");

    private final PadFinder pads;
    private final Set<Integer> wired = new HashSet<>();
    private String name = "";
    private String note = "";
    private List<PadWiring> wirings = List.of();
    private List<Header> headers = List.of();

    /** How pads in the file are looked up. */
    private interface PadFinder {
        int find(JsonIn in, boolean byPackagePin) throws BadInput;
    }

    private BoardReader(PadFinder pads) {
        this.pads = pads;
    }

    /**
     * Reads a board.
     *
     * @param fabric the fabric whose pads the board wires
     * @throws BadInput when the file cannot be read or is not a board for this fabric
     */
    public static Board read(Path file, Fabric fabric, Progress progress) throws BadInput {
        return read(Source.of(file), fabric, progress);
    }

    /** As {@link #read(Path, Fabric, Progress)}, from any source. */
    public static Board read(Source source, Fabric fabric, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.BOARD);
        PadLookup names = new PadLookup(fabric);
        return new BoardReader((in, byPin) -> byPin ? names.readPackagePin(in) : names.readName(in))
                .run(source, progress);
    }

    /**
     * Reads a board without a fabric: everything is checked except whether its pads exist.
     *
     * @return the number of pads described
     */
    public static int count(Source source, Progress progress) throws BadInput {
        FileHeader.expect(source, FileHeader.BOARD);
        Map<String, Integer> numbers = new HashMap<>();
        PadFinder byWord = (in, byPin) -> numberOf(numbers, (byPin ? "pin " : "pad ") + in.name());
        return new BoardReader(byWord).run(source, progress).wirings().size();
    }

    private static int numberOf(Map<String, Integer> numbers, String name) {
        numbers.putIfAbsent(name, numbers.size());
        return numbers.get(name);
    }

    private Board run(Source source, Progress progress) throws BadInput {
        new Passes()
                .part("format!", JsonIn::skip)
                .part("name!", in -> name = in.name())
                .part("note", in -> note = in.text(FileLimits.NOTE))
                .part("pads!", in -> wirings = in.list(this::readWiring))
                .part("headers", in -> headers = in.list(BoardReader::readHeader))
                .run(source, progress);
        return new Board(name, note, wirings, headers);
    }

    private PadWiring readWiring(JsonIn in) throws BadInput {
        int pad = Fabric.NOTHING;
        String net = "";
        double trace = 0;
        double load = 0;
        List<Attachment> attachments = List.of();
        Members member = in.object(WIRING);
        while (member.next()) {
            switch (member.name()) {
                case "pad" -> pad = pads.find(in, false);
                case "packagePin" -> pad = pads.find(in, true);
                case "net" -> net = in.word();
                case "trace_mm" -> trace = in.real(0, FileLimits.TRACE_MM);
                case "load_pf" -> load = in.real(0, FileLimits.LOAD_PF);
                default -> attachments = in.list(BoardReader::readAttachment);
            }
        }
        if (member.has("pad") == member.has("packagePin")) {
            throw in.fault(
                    "either \"pad\" or \"packagePin\"", member.has("pad") ? "both" : "neither");
        }
        if (!wired.add(pad)) {
            throw in.fault("each pad once", "a pad that has an entry already");
        }
        return new PadWiring(pad, net, trace, load, attachments);
    }

    private static Attachment readAttachment(JsonIn in) throws BadInput {
        AttachmentKind kind = AttachmentKind.HEADER;
        String part = "";
        String pin = "";
        int supply = 0;
        int most = 0;
        int series = 0;
        Members member = in.object(ATTACHED);
        while (member.next()) {
            switch (member.name()) {
                case "kind" -> kind = in.oneOf(AttachmentKind.values(), EnumWords::of);
                case "name" -> part = in.name();
                case "pin" -> pin = in.word();
                case "millivolts" -> supply = in.integer(0, FileLimits.ELECTRIC);
                case "most_mv" -> most = in.integer(0, FileLimits.ELECTRIC);
                default -> series = in.integer(0, FileLimits.OHMS);
            }
        }
        return new Attachment(kind, part, pin, new Levels(supply, most, series));
    }

    private static Header readHeader(JsonIn in) throws BadInput {
        String header = "";
        int pins = 1;
        int rows = 1;
        Header.Numbering numbering = Header.Numbering.ACROSS;
        Header.Side seen = Header.Side.TOP;
        List<String> grounds = List.of();
        Members member = in.object(HEADER);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> header = in.name();
                case "pins" -> pins = in.integer(1, FileLimits.HEADER_PINS);
                case "rows" -> rows = in.integer(1, 2);
                case "numbering" -> numbering = in.oneOf(Header.Numbering.values(), EnumWords::of);
                case "seen" -> seen = in.oneOf(Header.Side.values(), EnumWords::of);
                default -> grounds = in.list(JsonIn::name);
            }
        }
        return new Header(header, pins, rows, numbering, seen, grounds);
    }
}
