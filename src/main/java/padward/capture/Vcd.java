package padward.capture;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.base.BadInput;

/**
 * Reads and deskews captures in the value change dump format of IEEE 1364 (clause 18), in one pass.
 * Everything but changes stays as it is: declarations, comments, dump commands whose channels are
 * all shifted by the same amount. The values of {@code $dumpvars} are those before the first
 * changes and are not shifted. One variable is added, {@code order_uncertain}, which is 1 while the
 * order of changes on different channels is uncertain.
 */
final class Vcd {
    private static final Pattern SCALE = Pattern.compile("(1|10|100)\\s*(s|ms|us|ns|ps|fs)");
    private static final Map<String, Long> FS =
            Map.of(
                    "s", 1_000_000_000_000_000L,
                    "ms", 1_000_000_000_000L,
                    "us", 1_000_000_000L,
                    "ns", 1_000_000L,
                    "ps", 1_000L,
                    "fs", 1L);
    private static final long FS_PER_PS = 1000;
    private static final int TENTH = 10;
    private static final Set<String> DUMPS = Set.of("$dumpvars", "$dumpall", "$dumpoff", "$dumpon");

    private final String file;
    private final VcdTokens words;
    private final Writer out;
    private final List<String> channels = new ArrayList<>();
    private final Set<String> names = new HashSet<>();
    private final List<Channel> declared = new ArrayList<>();
    private final Map<String, Integer> channelById = new HashMap<>();
    private final Map<Integer, String> idOf = new HashMap<>();
    private final List<String> scope = new ArrayList<>();
    private final StringBuilder head = new StringBuilder();
    private long unitFs;

    /** That two signals have the same full name: a fault only where delays go by names. */
    private Optional<BadInput> usedTwice = Optional.empty();

    private Vcd(String file, Reader in, Writer out) {
        this.file = file;
        this.words = new VcdTokens(new BufferedReader(in));
        this.out = out;
    }

    /**
     * Reads a capture and writes it deskewed.
     *
     * @param file name of the capture, for messages
     * @param deskews makes the deskew once the names of the channels are known
     */
    static Deskewed deskew(String file, Reader in, Writer out, Captures.DeskewFactory deskews)
            throws IOException, BadInput {
        Vcd vcd = new Vcd(file, in, out);
        vcd.readHead();
        if (vcd.usedTwice.isPresent()) {
            throw vcd.usedTwice.get();
        }
        TimeReorderer reorderer = vcd.readBody(deskews.of(List.copyOf(vcd.declared)));
        return Deskewed.of(vcd.channels, reorderer, Optional.empty());
    }

    /** Reads a capture. */
    static void read(String file, Reader in, Changes changes) throws IOException, BadInput {
        Vcd vcd = new Vcd(file, in, Writer.nullWriter());
        vcd.readHead();
        changes.channels(List.copyOf(vcd.declared));
        vcd.readChanges(changes);
    }

    private BadInput fault(String expected, String found) {
        return new BadInput(file, "line " + words.line(), expected, found);
    }

    private void readHead() throws IOException, BadInput {
        while (true) {
            String word = words.next();
            if (word.isEmpty()) {
                throw fault("$enddefinitions", "the end of the file");
            }
            if (!word.startsWith("$")) {
                throw fault("a declaration", word);
            }
            List<String> parts = untilEnd();
            switch (word) {
                case "$enddefinitions" -> {
                    if (unitFs == 0) {
                        throw fault("a $timescale before $enddefinitions", "none");
                    }
                    return;
                }
                case "$timescale" -> {
                    Matcher scale = SCALE.matcher(String.join(" ", parts));
                    if (!scale.matches()) {
                        throw fault("a time scale such as 10 ns", String.join(" ", parts));
                    }
                    unitFs = Long.parseLong(scale.group(1)) * FS.get(scale.group(2));
                }
                case "$var" -> readVariable(parts);
                case "$scope" -> scope.add(parts.isEmpty() ? "" : parts.get(parts.size() - 1));
                case "$upscope" -> {
                    if (scope.isEmpty()) {
                        throw fault("$scope before $upscope", "none");
                    }
                    scope.remove(scope.size() - 1);
                }
                default -> {
                    // Dates, versions and comments are kept as they are.
                }
            }
            if (!word.equals("$timescale")) {
                head.append(word).append(' ');
                parts.forEach(part -> head.append(part).append(' '));
                head.append("$end\n");
            }
        }
    }

    private void readVariable(List<String> parts) throws BadInput {
        if (parts.size() < 4) {
            throw fault("type, size, identifier and name", String.join(" ", parts));
        }
        String name = String.join("", parts.subList(3, parts.size()));
        String full = scope.isEmpty() ? name : String.join(".", scope) + "." + name;
        String id = parts.get(2);
        // One identifier can have several names: the first one is used.
        if (!channelById.containsKey(id)) {
            channelById.put(id, channels.size());
            idOf.put(channels.size(), id);
            if (!names.add(readable(full)) && usedTwice.isEmpty()) {
                usedTwice = Optional.of(fault("names used once", readable(full) + " twice"));
            }
            channels.add(readable(full));
            declared.add(new Channel(readable(full), readable(name)));
        }
    }

    /** A name as people read it: in UTF-8 where its bytes are that, else byte for byte. */
    static String readable(String name) {
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(name.getBytes(StandardCharsets.ISO_8859_1)))
                    .toString();
        } catch (CharacterCodingException notUtf8) {
            return name;
        }
    }

    private List<String> untilEnd() throws IOException, BadInput {
        List<String> parts = new ArrayList<>();
        while (true) {
            String word = words.next();
            if (word.isEmpty()) {
                throw fault("$end", "the end of the file");
            }
            if (word.equals("$end")) {
                return parts;
            }
            parts.add(word);
        }
    }

    private TimeReorderer readBody(Deskew deskew) throws IOException, BadInput {
        long outFs = deskew.shifts().isEmpty() ? unitFs : outUnit(deskew);
        String mark = writeHead(outFs, deskew);
        TimeReorderer reorderer =
                new TimeReorderer(channels, deskew.roundedTo(outFs), outFs, new Body(outFs, mark));
        long fs = 0;
        boolean begun = false;
        String word = words.next();
        while (!word.isEmpty()) {
            char first = word.charAt(0);
            if (first == '#') {
                fs = time(word, fs);
                begun = true;
                reorderer.advance(fs);
            } else if (word.equals("$comment")) {
                String text = "$comment " + String.join(" ", untilEnd()) + " $end";
                if (begun) {
                    reorderer.text(fs, text);
                } else {
                    out.write(text + "\n");
                }
            } else if (DUMPS.contains(word)) {
                readDump(word, fs, reorderer);
                begun = true;
            } else if (first == '$') {
                throw fault("a change, a time, a comment or a dump", word);
            } else {
                begun = true;
                Change change = change(word);
                reorderer.change(fs, change.channel(), change.value());
            }
            word = words.next();
        }
        reorderer.finish();
        out.flush();
        return reorderer;
    }

    private void readChanges(Changes changes) throws IOException, BadInput {
        long fs = 0;
        boolean isInitial = false;
        boolean isDump = false;
        for (String word = words.next(); !word.isEmpty(); word = words.next()) {
            if (word.charAt(0) == '#') {
                fs = time(word, fs);
            } else if (word.equals("$comment")) {
                untilEnd();
            } else if (DUMPS.contains(word)) {
                isInitial = word.equals("$dumpvars");
                isDump = true;
            } else if (word.equals("$end") && isDump) {
                isInitial = false;
                isDump = false;
            } else if (word.charAt(0) == '$') {
                throw fault("a change, a time, a comment or a dump", word);
            } else {
                Change change = change(word);
                if (isInitial) {
                    changes.initial(change.channel(), change.value());
                } else {
                    changes.change(fs, change.channel(), change.value());
                }
            }
        }
        if (isDump) {
            throw fault("$end", "the end of the file");
        }
    }

    private record Change(int channel, String value) {
        String text(String id) {
            return value.length() > 1 ? value + " " + id : value + id;
        }
    }

    /** A scalar as {@code 1!}, a vector as {@code b101 !}, a real number as {@code r1.5 !}. */
    private Change change(String word) throws IOException, BadInput {
        char first = Character.toLowerCase(word.charAt(0));
        boolean separate = first == 'b' || first == 'r' || first == 's';
        if (!separate && "01xz".indexOf(first) < 0) {
            throw fault("a change", word);
        }
        String id = separate ? words.next() : word.substring(1);
        Integer channel = channelById.get(id);
        if (channel == null) {
            throw fault("an identifier that is declared", id);
        }
        return new Change(channel, separate ? word : word.substring(0, 1));
    }

    private long time(String word, long before) throws BadInput {
        try {
            long fs = Math.multiplyExact(Long.parseLong(word.substring(1)), unitFs);
            if (fs < before) {
                throw fault("times that do not fall", word);
            }
            if (fs <= Captures.MOST_FS) {
                return fs;
            }
        } catch (NumberFormatException | ArithmeticException wrong) {
            // reported below
        }
        throw fault("# and a time up to 9000 seconds", word);
    }

    private void readDump(String keyword, long fs, TimeReorderer reorderer)
            throws IOException, BadInput {
        List<Change> changes = new ArrayList<>();
        String word = words.next();
        while (!word.equals("$end")) {
            if (word.isEmpty()) {
                throw fault("$end", "the end of the file");
            }
            changes.add(change(word));
            word = words.next();
        }
        boolean initial = keyword.equals("$dumpvars");
        boolean alike = reorderer.alike(changes.stream().map(Change::channel).toList());
        if (!initial && !alike) {
            changes.forEach(c -> reorderer.change(fs, c.channel(), c.value()));
            return;
        }
        StringBuilder text = new StringBuilder(keyword);
        for (Change change : changes) {
            reorderer.initial(change.channel(), change.value());
            text.append('\n').append(change.text(idOf.get(change.channel())));
        }
        long late = initial || changes.isEmpty() ? 0 : reorderer.shiftFs(changes.get(0).channel());
        reorderer.text(fs + late, text.append("\n$end").toString());
    }

    /**
     * The coarsest unit that carries times to a tenth of the sampling period, and the capture's own
     * times as they are. Where the period is not known, the capture's unit stands for it.
     */
    private long outUnit(Deskew deskew) {
        long wanted =
                deskew.samplePs() > 0
                        ? deskew.samplePs() * FS_PER_PS / TENTH
                        : Math.max(unitFs / TENTH, Math.min(unitFs, FS_PER_PS));
        long unit = unitFs;
        while (unit > wanted && unit > 1) {
            unit /= TENTH;
        }
        return unit;
    }

    private String writeHead(long outFs, Deskew deskew) throws IOException {
        String unit =
                FS.entrySet().stream()
                        .filter(e -> outFs % e.getValue() == 0 && outFs / e.getValue() <= 100)
                        .map(e -> outFs / e.getValue() + " " + e.getKey())
                        .findFirst()
                        .orElseThrow();
        Set<String> taken = new HashSet<>(channelById.keySet());
        String mark = "!";
        for (int i = 0; taken.contains(mark); i++) {
            mark = "!u" + i;
        }
        out.write("$timescale " + unit + " $end\n");
        out.write(head.toString());
        if (!deskew.shifts().isEmpty()) {
            out.write("$comment " + deskew.referenceText() + " $end\n");
        }
        out.write("$scope module deskew $end\n");
        out.write("$var wire 1 " + mark + " order_uncertain $end\n");
        out.write("$upscope $end\n$enddefinitions $end\n");
        return mark;
    }

    /** Writes the changes. */
    private final class Body implements TimeReorderer.Out {
        private final long outFs;
        private final String mark;
        private boolean begun;

        Body(long outFs, String mark) {
            this.outFs = outFs;
            this.mark = mark;
        }

        @Override
        public void time(long fs) throws IOException {
            out.write("#" + fs / outFs + "\n");
            if (!begun) {
                begun = true;
                uncertain(false);
            }
        }

        @Override
        public void change(int channel, String value) throws IOException {
            out.write(new Change(channel, value).text(idOf.get(channel)) + "\n");
        }

        @Override
        public void uncertain(boolean now) throws IOException {
            out.write((now ? "1" : "0") + mark + "\n");
        }

        @Override
        public void text(String text) throws IOException {
            out.write(text + "\n");
        }
    }
}
