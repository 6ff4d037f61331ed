package padward.hostile.disk;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.change.LedgerEntry;
import padward.cli.Padward;
import padward.cli.output.ExitStatus;
import padward.fabric.Fabric;
import padward.format.compact.CopyRoundTrip;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.ledger.Journal;
import padward.format.ledger.JournalTest;
import padward.format.source.FolderSwap;
import padward.lesson.LearnerRecord;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.file.LearnerFolder;
import padward.ui.model.SessionRoundTrip;
import picocli.CommandLine;

/**
 * Runs commands again and again on files of their own; each time one more of the operations on
 * files is done before the program is killed, the disk is full, or nothing can be written any more.
 * After each, every file is as before or as after the command; what was reported as done is there;
 * and the next run finishes the work and clears what was left.
 *
 * <p>Run in a process of its own, with {@link FaultyDisk} as its disk: {@code EveryOperation FOLDER
 * [COMMAND...]}.
 */
public final class EveryOperation {
    /** Far more than any command needs. */
    private static final int MOST = 1000;

    private static final int JOURNAL_ENTRIES = 6;

    private static final String TIME = "\\d{4}-\\d\\d-\\d\\d[T ]\\d\\d:\\d\\d(:\\d\\d)?Z?";

    /**
     * What one command does.
     *
     * @param repeatable whether it does the same again when it is run again
     * @param words its words, with blanks between
     * @param folder the folder that it replaces; empty when it replaces files
     */
    private record Deed(boolean repeatable, String words, String folder) {}

    private static final Map<String, Deed> DEEDS = new LinkedHashMap<>();

    static {
        DEEDS.put("keep", new Deed(false, "keep -d DESIGN -l kept.json -n clk12 -p J2.2", ""));
        DEEDS.put("first", new Deed(false, "keep -d DESIGN -l new.json -n clk12 -p J2.2", ""));
        DEEDS.put("undo", new Deed(false, "undo -d DESIGN -l kept.json", ""));
        DEEDS.put("apply", new Deed(true, "apply -d DESIGN -l kept.json -o applied.json", ""));
        DEEDS.put("sheet", new Deed(true, "sheet -d DESIGN -l kept.json -o sheet.csv", ""));
        DEEDS.put("changes", new Deed(true, "changes -d DESIGN -l kept.json -o changes.json", ""));
        DEEDS.put("export", new Deed(true, "export -d DESIGN --tables out --replace", "out"));
        DEEDS.put("import", new Deed(true, "import --tables tables -o read --replace", "read"));
        DEEDS.put("make", new Deed(true, "make --wires 5000 -o made --replace", "made"));
        DEEDS.put(
                "place-route",
                new Deed(
                        true,
                        "place-route --netlist n.v --mapping larch.mapping.json --fabric"
                                + " only.fabric.json -o placed.json",
                        ""));
        DEEDS.put(
                "watch",
                new Deed(
                        false,
                        "watch trigger -d DESIGN -l kept.json --when clk12 -p J1.2 --combinational",
                        ""));
        DEEDS.put("deskew", new Deed(true, "deskew c.vcd -s old.csv -o c2.vcd", ""));
        DEEDS.put(
                "lead",
                new Deed(true, "lead -d DESIGN -l kept.json --port out_J2.1 --name lead", ""));
    }

    static {
        DEEDS.put(
                "bus", new Deed(false, "bus -d DESIGN -l kept.json --nets clk12 --pads J2.2", ""));
        DEEDS.put(
                "simulate",
                new Deed(
                        true,
                        "watch trigger -d DESIGN --when clk12 -p J1.2 --combinational"
                                + " --simulate trace.vcd",
                        ""));
        DEEDS.put(
                "new-ledger",
                new Deed(
                        true,
                        "apply -d DESIGN -l kept.json -o applied.json --new-ledger fresh.json",
                        ""));
        DEEDS.put("expand", new Deed(true, "expand only.fabric.json -o listed.json", ""));
        DEEDS.put("packed", new Deed(true, "expand only.fabric.json -o listed.json.gz", ""));
        DEEDS.put("page", new Deed(true, "sheet -d DESIGN -l kept.json -o sheet.html", ""));
        DEEDS.put("delays", new Deed(true, "sheet -d DESIGN -l kept.json -o sheet.sdf", ""));
        DEEDS.put("samples", new Deed(true, "deskew c.csv -s old.csv -o c2.csv", ""));
        DEEDS.put(
                "template",
                new Deed(
                        true, "changes -d DESIGN -l kept.json --template t.mustache -o t.txt", ""));
        DEEDS.put("zipped", new Deed(true, "export -d DESIGN --tables out --gz --replace", "out"));
        DEEDS.put(
                "board",
                new Deed(
                        true,
                        "board --nets board-nets.csv --parts parts.csv --chip U1 --fabric"
                                + " only.fabric.json -o made-board.json",
                        ""));
        DEEDS.put("learner", new Deed(false, "LEARNER", ""));
        DEEDS.put("session", new Deed(true, "SESSION", ""));
    }

    private final Path origin;
    private final Path work;
    private final List<String> failures = new ArrayList<>();

    private EveryOperation(Path folder) {
        this.origin = folder.resolve("origin");
        this.work = folder.resolve("work");
    }

    /** Sound files, and some of an earlier run that are to be replaced. */
    private void makeOrigin() throws IOException {
        delete(origin);
        Files.createDirectories(origin);
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            copy("small/" + name, name);
        }
        copy("netlists/larch.mapping.json", "larch.mapping.json");
        copy("package/heron-2.nets.csv", "board-nets.csv");
        copy("package/heron-2.parts.csv", "parts.csv");
        for (String folder : List.of("tables", "out", "read", "made")) {
            Files.createDirectory(origin.resolve(folder));
        }
        try (Stream<Path> all = Files.list(Path.of("fixtures/tables"))) {
            for (Path each : all.filter(f -> f.toString().endsWith(".csv")).toList()) {
                copy("tables/" + each.getFileName(), "tables/" + each.getFileName());
            }
        }
        for (String old : List.of("out/wires.csv", "read/board.json", "made/board.json")) {
            Files.writeString(origin.resolve(old), "old");
        }
        Files.writeString(
                origin.resolve("n.v"),
                "module top(input d, input c, output q); keep k(.d(d),.c(c),.q(q)); endmodule");
        Files.writeString(
                origin.resolve("c.vcd"),
                "$timescale 1ns $end $var wire 1 ! J2.1 $end $enddefinitions $end #0 0! #10 1! ");
        Files.writeString(origin.resolve("c.csv"), "time_ns,J2.1\n0,0\n10,1\n");
        Files.writeString(origin.resolve("t.mustache"), "{{design}}");
        Files.createDirectories(work);
        prepare();
        String kept = "keep -d DESIGN -l kept.json -n pump/level/sample[1] -p J2.1";
        for (String words : List.of(kept, "sheet -d DESIGN -l kept.json -o old.csv")) {
            Said said = run(new Deed(true, words, ""));
            if (said.code() != 0) {
                throw new IllegalStateException(words + ": " + said);
            }
        }
        Files.copy(work.resolve("kept.json"), origin.resolve("kept.json"));
        Files.copy(work.resolve("old.csv"), origin.resolve("old.csv"));
        Files.writeString(origin.resolve("sheet.csv"), "old");
    }

    private void copy(String from, String to) throws IOException {
        Files.copy(Path.of("fixtures").resolve(from), origin.resolve(to));
    }

    /** What a command said. */
    private record Said(int code, String err) {}

    private Said run(Deed deed) {
        try {
            switch (deed.words()) {
                case "LEARNER" -> LearnerFolder.at(work).change("ada", EveryOperation::answered);
                case "SESSION" -> SessionRoundTrip.write("pump", work.resolve("session.json"));
                default -> {
                    return runCommand(deed);
                }
            }
            return new Said(0, "");
        } catch (BadInput fault) {
            return new Said(ExitStatus.BAD_INPUT, fault.getMessage());
        }
    }

    private static LearnerRecord answered(LearnerRecord before) {
        return before.with(ExerciseKind.values()[0], true);
    }

    private Said runCommand(Deed deed) {
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(Writer.nullWriter()));
        line.setErr(new PrintWriter(err));
        String[] words =
                Stream.of(deed.words().split(" "))
                        .map(w -> w.equals("DESIGN") ? "only.design.json" : w)
                        .map(w -> isName(w) ? work.resolve(w).toString() : w)
                        .toArray(String[]::new);
        return new Said(Padward.execute(line, words), err.toString());
    }

    private static boolean isName(String word) {
        return word.matches(
                ".*\\.(json|json\\.gz|v|csv|vcd|html|sdf|mustache|txt)|out|tables|read|made");
    }

    private static void delete(Path folder) throws IOException {
        if (Files.exists(folder)) {
            try (Stream<Path> all = Files.walk(folder)) {
                for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(each);
                }
            }
        }
    }

    private void prepare() throws IOException {
        delete(work);
        try (Stream<Path> all = Files.walk(origin)) {
            for (Path each : all.sorted().toList()) {
                Files.copy(each, work.resolve(origin.relativize(each).toString()));
            }
        }
    }

    /** All files but those that a program leaves while it works; times are left out. */
    private static Map<String, String> files(Path folder) throws IOException {
        Map<String, String> result = new TreeMap<>();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.filter(Files::isRegularFile).toList()) {
                String name = folder.relativize(each).toString();
                if (!isLeft(name)) {
                    String text = new String(Files.readAllBytes(each), StandardCharsets.ISO_8859_1);
                    result.put(name, text.replaceAll(TIME, "TIME"));
                }
            }
        }
        return result;
    }

    private static boolean isLeft(String name) {
        return name.matches(".*\\.(part|old|new|padward\\.lock)(/.*)?");
    }

    private Set<String> left() throws IOException {
        Set<String> result = new TreeSet<>();
        try (Stream<Path> all = Files.walk(work)) {
            for (Path each : all.toList()) {
                String name = work.relativize(each).toString();
                if (isLeft(name)) {
                    result.add(name);
                }
            }
        }
        return result;
    }

    /**
     * The copy of a fabric in the cache: it is for speed only, so whatever happens to it, the
     * fabric is read.
     */
    private void runCopies() throws Exception {
        Path listed = origin.resolve("listed.json");
        FabricWriter.write(
                FabricReader.read(origin.resolve("only.fabric.json"), Progress.NONE), listed);
        CopyRoundTrip copies = new CopyRoundTrip(listed);
        Path cache = work.resolve("cache");
        int vertices = FabricReader.read(listed, Progress.NONE).vertexCount();
        for (Fate.Kind kind : List.of(Fate.Kind.KILL, Fate.Kind.FULL, Fate.Kind.DENIED)) {
            prepare();
            Fate.begin(Fate.Kind.NONE, 0);
            copies.get(cache);
            int operations = Fate.end();
            for (int n = 1; n <= operations; n++) {
                prepare();
                String what = "copies, " + kind + " at " + n;
                Fate.begin(kind, n);
                try {
                    if (copies.get(cache).vertexCount() != vertices) {
                        fail(what + ": another fabric");
                    }
                } catch (Fate.Killed end) {
                    // the next one reads it
                }
                Fate.end();
                if (kind == Fate.Kind.FULL && !left().isEmpty()) {
                    fail(what + ": left on a full disk " + left());
                }
                if (copies.get(cache).vertexCount() != vertices || !copies.isAllOf(cache)) {
                    fail(what + ": the next run leaves " + left());
                }
            }
            System.out.println("copies, " + kind + ": " + operations + " operations");
        }
    }

    /** The window's journal: what was recorded last is there, or what was being recorded. */
    private void runJournal() throws Exception {
        Fabric fabric = FabricReader.read(origin.resolve("only.fabric.json"), Progress.NONE);
        Path file = work.resolve("a.journal");
        int n = 1;
        boolean killed = true;
        for (; killed; n++) {
            prepare();
            List<LedgerEntry> told = List.of();
            List<LedgerEntry> next = List.of();
            Fate.begin(Fate.Kind.KILL, n);
            killed = false;
            try (Journal journal = Journal.open(file, "d", fabric).orElseThrow()) {
                for (int i = 1; i < JOURNAL_ENTRIES; i++) {
                    next = new ArrayList<>(told);
                    next.add(JournalTest.entry(i));
                    journal.record(next);
                    told = next;
                }
            } catch (Fate.Killed end) {
                killed = true;
            }
            Fate.end();
            try (Journal journal = Journal.open(file, "d", fabric).orElseThrow()) {
                List<LedgerEntry> found = journal.found();
                if (!found.equals(told) && !found.equals(next)) {
                    fail("journal, KILL at " + n + ": " + found.size() + " of " + told.size());
                }
                if (journal.damage().isPresent()) {
                    fail("journal, KILL at " + n + ": " + journal.damage().get().getMessage());
                }
            }
            if (left().stream().anyMatch(l -> !l.endsWith(".lock"))) {
                fail("journal, KILL at " + n + ": left " + left());
            }
        }
        System.out.println("journal: " + (n - 2) + " operations");
    }

    private void fail(String what) {
        failures.add(what);
        System.out.println("FAILED " + what);
    }

    private void runAll(String name, Deed deed) throws IOException {
        prepare();
        Map<String, String> before = files(work);
        Fate.begin(Fate.Kind.NONE, 0);
        Said sound = run(deed);
        int operations = Fate.end();
        Map<String, String> after = files(work);
        if (sound.code() != 0 || before.equals(after)) {
            fail(name + " itself: " + sound);
            return;
        }
        for (Fate.Kind kind : List.of(Fate.Kind.KILL, Fate.Kind.FULL, Fate.Kind.DENIED)) {
            for (int n = 1; n <= operations && n < MOST; n++) {
                runOnce(name + ", " + kind + " at " + n, deed, kind, n, before, after);
            }
        }
        System.out.println(name + ": " + operations + " operations");
    }

    private void runOnce(
            String what,
            Deed deed,
            Fate.Kind kind,
            int n,
            Map<String, String> before,
            Map<String, String> after)
            throws IOException {
        prepare();
        Fate.begin(kind, n);
        boolean ended = false;
        Said said = new Said(-1, "");
        try {
            said = run(deed);
        } catch (Fate.Killed killed) {
            ended = true;
        }
        Fate.end();
        checkState(what, deed, files(work), before, after);
        boolean done = said.code() == 0;
        if (done && !files(work).equals(after)) {
            fail(what + ": reported as done, and is not there");
        }
        boolean reported = said.code() == 2 && said.err().strip().lines().count() == 1;
        if (!ended && !done && !reported) {
            fail(what + ": " + said);
        }
        if (kind == Fate.Kind.FULL && !left().isEmpty()) {
            fail(what + ": left on a full disk " + left());
        }
        boolean again = deed.repeatable() || !files(work).equals(after);
        Said next = again ? run(deed) : new Said(0, "");
        if (next.code() != 0 || !files(work).equals(after)) {
            fail(what + ": the next run does not finish it: " + next);
        }
        if (again && !left().isEmpty()) {
            fail(what + ": the next run leaves " + left());
        }
    }

    private void checkState(
            String what,
            Deed deed,
            Map<String, String> now,
            Map<String, String> before,
            Map<String, String> after)
            throws IOException {
        if (deed.folder().isEmpty()) {
            Set<String> names = new TreeSet<>(now.keySet());
            names.addAll(before.keySet());
            for (String name : names) {
                String text = now.getOrDefault(name, "");
                if (!text.equals(before.getOrDefault(name, ""))
                        && !text.equals(after.getOrDefault(name, ""))) {
                    fail(what + ": " + name + " is neither as before nor as after");
                }
            }
            return;
        }
        List<Path> old = FolderSwap.leftBehind(work.resolve(deed.folder()));
        if (old.isEmpty()) {
            if (!now.equals(before) && !now.equals(after)) {
                fail(what + ": the folder is neither as before nor as after");
            }
            return;
        }
        Map<String, String> whole = new TreeMap<>(now);
        files(old.get(0)).forEach((name, text) -> whole.put(deed.folder() + "/" + name, text));
        if (old.size() > 1 || !whole.equals(before)) {
            fail(what + ": what stood there is not in " + old);
        }
    }

    /** Runs the commands that are named, or all. */
    public static void main(String[] words) throws Exception {
        EveryOperation all = new EveryOperation(Path.of(words[0]));
        all.makeOrigin();
        List<String> chosen = List.of(words).subList(1, words.length);
        for (Map.Entry<String, Deed> each : DEEDS.entrySet()) {
            if (chosen.isEmpty() || chosen.contains(each.getKey())) {
                all.runAll(each.getKey(), each.getValue());
            }
        }
        if (chosen.isEmpty() || chosen.contains("copies")) {
            all.runCopies();
        }
        if (chosen.isEmpty() || chosen.contains("journal")) {
            all.runJournal();
        }
        System.out.println(all.failures.size() + " failures");
        System.exit(all.failures.isEmpty() ? 0 : 1);
    }
}
