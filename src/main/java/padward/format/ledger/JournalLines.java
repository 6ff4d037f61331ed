package padward.format.ledger;

import com.google.gson.FormattingStyle;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.zip.CRC32C;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.LedgerEntry;
import padward.fabric.Fabric;
import padward.format.json.JsonIn;
import padward.format.json.JsonOut;
import padward.format.json.Members;
import padward.format.json.Shape;
import padward.format.source.Source;
import padward.format.source.Text;

/**
 * The lines of a {@link Journal}. Each is a checksum (CRC-32C, RFC 3720 appendix B.4, eight
 * hexadecimal digits), a blank, and one JSON object: {@code {"stay": n, "entries": [...]}}: the
 * first n of the entries so far stay, and these follow. The first line names the format and the
 * design, by the digest of its file's bytes.
 */
final class JournalLines {
    static final String FORMAT = "padward-journal/1";
    private static final int SUM = 8;
    private static final Shape LINE = Shape.of("format", "sha256", "stay", "entries");

    /**
     * The net effect of all lines.
     *
     * @param digest digest of the design's file, {@code ""} when there is no line
     * @param entries the entries that remain
     */
    record State(String digest, List<LedgerEntry> entries) {
        State {
            entries = List.copyOf(entries);
        }
    }

    private JournalLines() {}

    static byte[] head(String digest) {
        return line(
                out -> {
                    out.beginObject().name("format").value(FORMAT);
                    out.name("sha256").value(digest).endObject();
                });
    }

    static byte[] kept(int stay, List<LedgerEntry> entries, Fabric fabric) {
        return line(
                out -> {
                    out.beginObject().name("stay").value(stay).name("entries");
                    LedgerWriter.writeUnsigned(entries, fabric, out);
                    out.endObject();
                });
    }

    private static byte[] line(JsonOut.Body body) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try {
            JsonOut.write(bytes, FormattingStyle.COMPACT, body);
        } catch (IOException impossible) {
            throw new UncheckedIOException("nothing is written outside memory", impossible);
        }
        String text = bytes.toString(StandardCharsets.UTF_8);
        return (sum(text) + " " + text + "\n").getBytes(StandardCharsets.UTF_8);
    }

    private static String sum(String text) {
        CRC32C crc = new CRC32C();
        crc.update(text.getBytes(StandardCharsets.UTF_8));
        return HexFormat.of().toHexDigits((int) crc.getValue());
    }

    /**
     * Reads lines up to the first that is incomplete or damaged: a program that was stopped while
     * writing leaves such a line at the end.
     *
     * @throws BadInput when an undamaged line has a fault
     */
    static State read(byte[] bytes, String label, Fabric fabric) throws BadInput {
        List<LedgerEntry> kept = new ArrayList<>();
        String digest = "";
        int at = 0;
        Optional<String> line = line(bytes, at);
        while (line.isPresent()) {
            int length = line.get().getBytes(StandardCharsets.UTF_8).length;
            Line read = read(line.get().substring(SUM + 1), label, fabric, kept.size());
            if (read.digest.isEmpty()) {
                kept.subList(read.stay, kept.size()).clear();
                kept.addAll(read.entries);
            } else {
                digest = read.digest;
            }
            at += length + 1;
            line = line(bytes, at);
        }
        return new State(digest, kept);
    }

    /** The digest in the first line; empty when there is none that is sound. */
    static String digestOf(byte[] bytes) throws BadInput {
        Optional<String> line = line(bytes, 0);
        if (line.isEmpty()) {
            return "";
        }
        String json = line.get().substring(SUM + 1);
        try (JsonIn in = new JsonIn(new Source.OfText("journal", json), Progress.NONE)) {
            String digest = "";
            in.beginObject();
            while (in.more()) {
                if (in.memberName().equals("sha256")) {
                    digest = in.name();
                } else {
                    in.skip();
                }
            }
            return digest;
        }
    }

    /** The whole and sound line that begins there, without its end. */
    private static Optional<String> line(byte[] bytes, int from) {
        int end = from;
        while (end < bytes.length && bytes[end] != '\n') {
            end++;
        }
        if (end >= bytes.length || end - from <= SUM) {
            return Optional.empty();
        }
        String line = new String(bytes, from, end - from, StandardCharsets.UTF_8);
        boolean sound = line.charAt(SUM) == ' ' && line.startsWith(sum(line.substring(SUM + 1)));
        return sound ? Optional.of(line) : Optional.empty();
    }

    private record Line(String digest, int stay, List<LedgerEntry> entries) {}

    private static Line read(String json, String label, Fabric fabric, int kept) throws BadInput {
        String digest = "";
        int stay = 0;
        List<LedgerEntry> entries = List.of();
        try (JsonIn in = new JsonIn(new Source.OfText(label, json), Progress.NONE)) {
            Members member = in.object(LINE);
            while (member.next()) {
                switch (member.name()) {
                    case "format" -> {
                        String format = in.name();
                        if (!format.equals(FORMAT)) {
                            throw in.fault(Text.quote(FORMAT), Text.quote(format));
                        }
                    }
                    case "sha256" -> digest = in.name();
                    case "stay" -> stay = in.integer(0, kept);
                    default -> entries = LedgerReader.readUnsigned(in, fabric);
                }
            }
        }
        return new Line(digest, stay, entries);
    }
}
