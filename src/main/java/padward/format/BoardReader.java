package padward.format;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Attachment;
import padward.design.AttachmentKind;
import padward.design.Board;
import padward.design.PadWiring;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/** Reads boards. One object reads one file. */
final class BoardReader {
    private static final Shape PAD = Shape.of("pad", "packagePin", "net", "trace_mm", "attached");
    private static final Shape ATTACHED = Shape.of("kind!", "name!", "pin");

    private final Map<String, Integer> padByName = new HashMap<>();
    private final Map<String, Integer> padByPin = new HashMap<>();
    private final BitSet wired = new BitSet();
    private final List<PadWiring> wirings = new ArrayList<>();
    private String name = "";
    private String note = "";

    private BoardReader(Fabric fabric) {
        for (int i = 0; i < fabric.pads().size(); i++) {
            Pad pad = fabric.pads().get(i);
            padByName.put(pad.name(), i);
            if (!pad.packagePin().isEmpty()) {
                padByPin.put(pad.packagePin(), i);
            }
        }
    }

    static Board read(Source source, Fabric fabric, Progress progress) throws BadInput {
        Head.expect(source, Head.BOARD);
        BoardReader reader = new BoardReader(fabric);
        new Passes()
                .part("format!", JsonIn::skip)
                .part("name!", in -> reader.name = in.name())
                .part("note", in -> reader.note = in.text(Limits.NOTE))
                .part("pads!", reader::readPads)
                .run(source, progress);
        return new Board(reader.name, reader.note, reader.wirings);
    }

    private void readPads(JsonIn in) throws BadInput {
        in.beginArray();
        while (in.more()) {
            wirings.add(readPad(in));
        }
        in.endArray();
    }

    private PadWiring readPad(JsonIn in) throws BadInput {
        int pad = Fabric.NOTHING;
        String net = "";
        double trace = 0;
        List<Attachment> attached = List.of();
        Members member = in.object(PAD);
        while (member.next()) {
            switch (member.name()) {
                case "pad" -> pad = known(in, padByName, "pad");
                case "packagePin" -> pad = known(in, padByPin, "package pin");
                case "net" -> net = in.text(padward.fabric.Limits.NAME_LENGTH);
                case "trace_mm" -> trace = in.real(0, Limits.TRACE_MM);
                default -> attached = in.list(BoardReader::readAttached);
            }
        }
        if (member.has("pad") == member.has("packagePin")) {
            throw in.fault(
                    "either \"pad\" or \"packagePin\"", member.has("pad") ? "both" : "neither");
        }
        if (wired.get(pad)) {
            throw in.fault("each pad once", "a pad that has an entry already");
        }
        wired.set(pad);
        return new PadWiring(pad, net, trace, attached);
    }

    private static int known(JsonIn in, Map<String, Integer> pads, String sort) throws BadInput {
        String text = in.name();
        Integer pad = pads.get(text);
        if (pad == null) {
            Stream<String> names = pads.keySet().stream().sorted();
            throw in.fault("the name of a " + sort, Nearest.describe(text, names));
        }
        return pad;
    }

    private static Attachment readAttached(JsonIn in) throws BadInput {
        AttachmentKind kind = AttachmentKind.HEADER;
        String attachedName = "";
        String pin = "";
        Members member = in.object(ATTACHED);
        while (member.next()) {
            switch (member.name()) {
                case "kind" -> kind = in.oneOf(AttachmentKind.values(), Labels::of);
                case "name" -> attachedName = in.name();
                default -> pin = in.text(padward.fabric.Limits.NAME_LENGTH);
            }
        }
        return new Attachment(kind, attachedName, pin);
    }
}
