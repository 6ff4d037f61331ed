package padward.hostile;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.cli.output.FileCheck;
import padward.design.Design;
import padward.design.board.Board;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.filework.SheetLines;
import padward.format.design.BoardReader;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.design.Digest;
import padward.format.design.References;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.format.source.Source;
import padward.format.tables.QuestionTable;
import padward.format.tables.TableImport;
import padward.handover.ChangeTemplate;
import padward.lesson.LearnerRecord;
import padward.lesson.file.LearnerFile;
import padward.lesson.file.LessonReader;
import padward.ui.model.SessionRoundTrip;
import padward.watch.condition.Condition;
import padward.watch.condition.ConditionLogic;
import padward.watch.condition.ConditionNetNames;
import padward.watch.condition.ConditionParser;
import padward.watch.condition.ConditionValue;
import padward.watch.logic.CircuitBuilder;

/** All kinds of input that the program reads, and what must hold for each that it accepts. */
final class Targets {
    private static final int MOST_COMPARED = 30_000;
    private static final int TABLE_INPUTS = 4;
    private static final int LEVELS = 4;

    private final World world;
    private final List<Target> all = new ArrayList<>();

    private Targets(World world) {
        this.world = world;
    }

    /** All of them, with their sound examples. */
    static List<Target> all(World world) throws IOException, BadInput {
        Targets targets = new Targets(world);
        targets.addDesigns();
        targets.addTemplates();
        new LedgerTargets(targets, world).add();
        new CaptureTargets(targets, world).add();
        targets.addOthers();
        targets.addNetlists();
        targets.addTables();
        targets.addLanguages();
        new FurtherTargets(targets, world).add();
        return List.copyOf(targets.all);
    }

    /** Adds a target with sound files of the world, and with those of the corpus. */
    void add(String name, String file, List<String> words, Check check, String... seeds)
            throws IOException {
        List<byte[]> sound = new ArrayList<>();
        for (String seed : seeds) {
            sound.add(Files.readAllBytes(world.file(seed)));
        }
        Path corpus = Path.of("src/test/resources/hostile", name);
        if (Files.isDirectory(corpus)) {
            try (var files = Files.list(corpus)) {
                for (Path each : files.sorted().toList()) {
                    sound.add(Files.readAllBytes(each));
                }
            }
        }
        all.add(new Target(name, world.file(file), words, sound, check));
    }

    /** Reads a file and checks what comes of it. */
    interface Check {
        void of(Path file) throws Exception;
    }

    private void addDesigns() throws IOException {
        add(
                "fabric",
                "in.fabric.json",
                List.of(
                        "same", "all", "rotate", "mirror", "wilton", "pad", "e1", "n1", "x0y0",
                        "in", "out"),
                this::fabric,
                "narrows.fabric.json",
                "listed.fabric.json",
                "gated.fabric.json",
                "only.fabric.json");
        add(
                "design",
                "in.design.json",
                List.of(
                        "narrows.fabric.json",
                        "gated.fabric.json",
                        "plover.board.json",
                        "x0y0/cell[0].out",
                        "x1y0/e1[0]"),
                this::design,
                "narrows.design.json",
                "gated.design.json");
        add(
                "irregular",
                "in2.design.json",
                List.of("irregular.fabric.json"),
                this::design,
                "irregular.design.json");
        add("board", "in.board.json", List.of(), this::board, "board.json");
        add("gz", "in.design.json.gz", List.of(), this::design, "listed/design.json.gz");
        add(
                "lesson",
                "in.lesson.json",
                List.of(),
                f -> {
                    LessonReader.check(Source.of(f), Progress.NONE);
                },
                "01-boxes.json",
                "05-enable.json",
                "07-skew.json");
    }

    private void fabric(Path file) throws Exception {
        Fabric fabric = FabricReader.read(file, Progress.NONE);
        FileCheck.describe(fabric, Progress.NONE);
        if (fabric.vertexCount() > MOST_COMPARED) {
            return;
        }
        Path again = world.file("again.fabric.json");
        FabricWriter.write(fabric, again);
        assertSame(FabricReader.read(again, Progress.NONE), fabric);
    }

    private static void assertSame(Fabric one, Fabric other) {
        assertThat(one.info()).isEqualTo(other.info());
        assertThat(one.pads().size()).isEqualTo(other.pads().size());
        assertThat(one.siteCount()).isEqualTo(other.siteCount());
        assertThat(one.vertexCount()).isEqualTo(other.vertexCount());
        assertThat(edges(one)).isEqualTo(edges(other));
    }

    private static long edges(Fabric fabric) {
        EdgeCursor cursor = fabric.edgesOut();
        long sum = 0;
        for (int v = 0; v < fabric.vertexCount(); v++) {
            int from = fabric.vertexName(v).hashCode();
            cursor.reset(v);
            while (cursor.next()) {
                long edge = 31L * from + fabric.vertexName(cursor.other()).hashCode();
                sum += (31 * edge + cursor.kind().ordinal()) * 31 + cursor.delay().hashCode();
            }
        }
        return sum;
    }

    private void design(Path file) throws Exception {
        Design design = DesignReader.read(file, Progress.NONE);
        FileCheck.describe(design, Progress.NONE);
        References names = References.of(file);
        Path again = world.file("again.design.json");
        DesignWriter.write(design, again, names.fabric(), names.board());
        Design read = DesignReader.read(again, Progress.NONE);
        assertThat(read.cells()).isEqualTo(design.cells());
        assertThat(read.nets()).isEqualTo(design.nets());
        assertThat(read.ports()).isEqualTo(design.ports());
        assertThat(read.board()).isEqualTo(design.board());
        assertThat(Digest.of(read)).isEqualTo(Digest.of(design));
        PlainRules.check(design);
        if (!design.nets().isEmpty() && !design.fabric().pads().isEmpty()) {
            int pad = design.cells().size() % design.fabric().pads().size();
            Asker.ask(
                    new Question(design, design.nets().iterator().next(), pad, Corner.SLOW),
                    Progress.NONE);
        }
    }

    private void board(Path file) throws Exception {
        Board board = BoardReader.read(file, world.fabric(), Progress.NONE);
        Path again = world.file("again.board.json");
        BoardWriter.write(board, world.fabric(), again);
        assertThat(BoardReader.read(again, world.fabric(), Progress.NONE)).isEqualTo(board);
    }

    private void addTemplates() throws IOException {
        add(
                "template",
                "in.mustache",
                List.of(
                        "{{", "}}", "{{{", "}}}", "{{#", "{{/", "{{^", "{{=", "=}}", "{{>", "{{!",
                        "{{&", "entries", "changes", "json", "shell", "csv", "design", "name",
                        "net", "-first", "-last", "-index", "."),
                f -> ChangeTemplate.run(f, world.changes()));
    }

    private void addOthers() throws IOException {
        add("session", "in.session.json", List.of(), SessionRoundTrip::check);
        add(
                "learner",
                "in.learner.json",
                List.of(),
                f -> {
                    LearnerRecord record = LearnerFile.read(Source.of(f));
                    Path again = world.file("again.learner.json");
                    LearnerFile.write(record, again);
                    assertThat(LearnerFile.read(Source.of(again))).isEqualTo(record);
                },
                "learner.json");
        add(
                "mapping",
                "in.mapping.json",
                List.of(),
                f -> CellMappingReader.read(f, Progress.NONE),
                "larch.mapping.json");
    }

    private void addNetlists() throws IOException {
        add(
                "verilog",
                "in.v",
                List.of(
                        "module",
                        "endmodule",
                        "input",
                        "output",
                        "inout",
                        "wire",
                        "assign",
                        "keep",
                        "reg",
                        "1'b0",
                        "4'hx",
                        "{",
                        "}",
                        "[1:0]",
                        "\\a ",
                        "`define",
                        "parameter",
                        "#(",
                        ".d(",
                        "tri",
                        "supply0",
                        "(*",
                        "*)",
                        "not",
                        "and",
                        "{2{"),
                this::netlist,
                "counter.v",
                "receiver.v");
        add(
                "edif",
                "in.edf",
                List.of(
                        "(",
                        ")",
                        "edif",
                        "cell",
                        "view",
                        "interface",
                        "port",
                        "array",
                        "rename",
                        "member",
                        "net",
                        "joined",
                        "portRef",
                        "instanceRef",
                        "instance",
                        "viewRef",
                        "cellRef",
                        "libraryRef",
                        "design",
                        "property",
                        "\"",
                        "INPUT",
                        "%",
                        "keywordMap"),
                this::netlist);
    }

    private void netlist(Path file) throws Exception {
        NetlistReader.read(file, "", world.mapping(), world.fabric(), Progress.NONE);
    }

    private void addTables() throws IOException {
        for (String folder : List.of("tables", "irregular")) {
            List<String> names;
            try (var files = Files.list(world.file(folder))) {
                names =
                        files.map(f -> f.getFileName().toString())
                                .filter(f -> f.endsWith(".csv"))
                                .sorted()
                                .toList();
            }
            for (String name : names) {
                String path = folder + "/" + name;
                add(
                        "tables-" + folder + "-" + name.replace(".csv", ""),
                        path,
                        List.of(),
                        f -> tables(f, path),
                        path);
            }
        }
        add("questions", "in.questions.csv", List.of(), QuestionTable::read, "questions.csv");
        add("sheet", "in.sheet.csv", List.of(), SheetLines::read);
    }

    /** The folder with the one table; sound tables that were read are exported and read again. */
    private void tables(Path file, String sound) throws Exception {
        TableImport.Result result =
                TableImport.read(file.getParent(), Optional.empty(), TABLE_INPUTS, Progress.NONE);
        if (result instanceof TableImport.Faulty faulty) {
            throw faulty.shown().get(0);
        }
        TableImport.Sound read = (TableImport.Sound) result;
        if (read.design().isPresent()) {
            PlainRules.check(read.design().get());
            TableRoundTrip.check(read, world.file("again-tables"));
        }
    }

    private void addLanguages() throws IOException {
        add(
                "condition",
                "in.condition",
                List.of(
                        "&&",
                        "||",
                        "!",
                        "(",
                        ")",
                        "rising(",
                        "falling(",
                        "==",
                        "!=",
                        "<",
                        ">=",
                        "in",
                        "..",
                        "8h3F",
                        "4b1x0",
                        "clk12",
                        "sample[1]",
                        "pump/level/sample[2:0]",
                        "alarm/beep",
                        "[",
                        ":",
                        "]"),
                this::condition);
        add(
                "command",
                "in.words",
                List.of(
                        "--json",
                        "--net",
                        "--pad",
                        "--corner",
                        "fast",
                        "slow",
                        "--design",
                        "DESIGN",
                        "*",
                        "?",
                        "--what-if",
                        "--option",
                        "--engine",
                        "reference",
                        "--setting",
                        "--bank",
                        "--sort",
                        "--free",
                        "--used",
                        "--help",
                        "@FABRIC",
                        "FABRIC",
                        "ask",
                        "survey",
                        "check",
                        "nets",
                        "pads",
                        "pins",
                        "diff",
                        "J2.1",
                        "clk12",
                        "--"),
                f -> CommandLines.run(Files.readAllBytes(f), world));
    }

    private void condition(Path file) throws Exception {
        String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
        ConditionNetNames names = ConditionNetNames.of(world.design());
        CircuitBuilder builder = new CircuitBuilder(4);
        try {
            Condition condition = ConditionParser.parse("--when", text, names);
            for (int seed = 0; seed < LEVELS; seed++) {
                int drawn = seed;
                new ConditionValue(n -> (n.hashCode() >> drawn & 1) > 0).of(condition);
            }
            new ConditionLogic(builder, Optional.of("clk12")).add(condition);
        } catch (IllegalArgumentException tooMuch) {
            throw new BadInput("--when", "", "less", "" + tooMuch.getMessage());
        }
    }
}
