package padward.format;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Ledger;
import padward.design.Design;
import padward.design.RouteTree;
import padward.format.design.DesignReader;
import padward.format.design.Digest;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.ledger.EntrySigning;
import padward.format.ledger.LedgerWriter;
import padward.handover.ChangeList;
import padward.handover.ChangeListText;
import padward.lesson.LearnerRecord;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.file.LearnerFile;

/** The files of the examples against the schemas, by a general validator of JSON Schema 2020-12. */
class SchemaTest {
    private static Schema schema(String name) throws Exception {
        try (InputStream in =
                SchemaTest.class.getResourceAsStream("/padward/format/" + name + ".schema.json")) {
            String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
            return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(text, InputFormat.JSON);
        }
    }

    private static String text(Path file) throws Exception {
        try (InputStream raw = Files.newInputStream(file);
                InputStream in = file.toString().endsWith(".gz") ? new GZIPInputStream(raw) : raw) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "fabric, fixtures/small/only.fabric.json",
        "fabric, fixtures/small/around.fabric.json",
        "design, fixtures/small/only.design.json",
        "design, fixtures/small/around.design.json",
        "board, fixtures/small/board.json",
        "fabric, fixtures/workbench/fabric.json.gz",
        "fabric, fixtures/lessons/gated.fabric.json",
        "design, fixtures/lessons/gated.design.json",
        "board, fixtures/lessons/plover.board.json",
        "lesson, fixtures/lessons/01-boxes.json",
        "lesson, fixtures/lessons/02-strip-map.json",
        "lesson, fixtures/lessons/03-branching.json",
        "lesson, fixtures/lessons/04-io-register.json",
        "lesson, fixtures/lessons/05-enable.json",
        "lesson, fixtures/lessons/06-unblocking.json",
        "lesson, fixtures/lessons/07-skew.json",
        "lesson, fixtures/lessons/08-cautions.json",
        "board, fixtures/workbench/board.json",
        "mapping, fixtures/netlists/larch.mapping.json"
    })
    void theExamplesFit(String schema, Path file) throws Exception {
        assertThat(schema(schema).validate(text(file), InputFormat.JSON)).isEmpty();
    }

    @Test
    void anExpandedFabricFits(@TempDir Path folder) throws Exception {
        Path file = folder.resolve("explicit.json");
        FabricWriter.write(
                FabricReader.read(Path.of("fixtures/small/only.fabric.json"), Progress.NONE), file);
        assertThat(schema("fabric").validate(text(file), InputFormat.JSON)).isEmpty();
    }

    @Test
    void aLedgerAndItsChangeListFit(@TempDir Path folder) throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        RouteTree clock = design.nets().get(0).route();
        List<Edit> edits =
                List.of(
                        new Edit.DisconnectPort("motor"),
                        new Edit.RemoveNet("float_hi"),
                        new Edit.RemoveCell("pump/run/motor_out"),
                        new Edit.SetCell("pump/run/hold", "through", "open"),
                        new Edit.RouteNet(design.nets().get(0).name(), clock));
        Ledger ledger =
                new Ledger("d", Digest.of(Path.of("fixtures/small/only.design.json")), List.of())
                        .with(EntrySigning.entry(design, "n", "p", edits, "", "a note"));
        Path file = folder.resolve("ledger.json");
        LedgerWriter.write(ledger, design.fabric(), file);
        assertThat(schema("ledger").validate(text(file), InputFormat.JSON)).isEmpty();
        String changes = ChangeListText.json(ChangeList.of(design, ledger));
        assertThat(schema("changes").validate(changes, InputFormat.JSON)).isEmpty();
        assertThat(changes).contains("cell-set").contains("port-gone").contains("cell-gone");
        // Whoever carries it out must know which site signals pass from now on.
        assertThat(changes.replaceAll("\\s+", " "))
                .contains(
                        "\"what\": \"cell-set\", \"name\": \"pump/run/hold\","
                                + " \"site\": \"x5y3/cell[0]\", \"setting\": \"through\","
                                + " \"value\": \"open\"");
    }

    @Test
    void aLearnersFileFits(@TempDir Path folder) throws Exception {
        LearnerRecord record =
                new LearnerRecord(
                        "anna",
                        Map.of("boxes", new LearnerRecord.Lessoned(3, 3, 1, 0, Optional.of("now"))),
                        Map.of(
                                ExerciseKind.SITE, new LearnerRecord.Score(3, 2),
                                ExerciseKind.PAD, new LearnerRecord.Score(1, 1),
                                ExerciseKind.DELAY, new LearnerRecord.Score(0, 0)));
        Path file = folder.resolve("anna.json");
        LearnerFile.write(record, file);
        assertThat(schema("learner").validate(text(file), InputFormat.JSON)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "learner; {\"format\": \"padward-learner/1\", \"learner\": \"a\", \"lessons\": []}",
                "mapping; {\"format\": \"padward-mapping/1\", \"name\": \"m\", \"types\":"
                        + " [{\"type\": \"t\"}]}",
                "board; {\"format\": \"padward-board/1\", \"name\": \"b\"}",
                "lesson; {\"format\": \"padward-lesson/1\", \"number\": 1, \"name\": \"b\"}",
                "board; {\"format\": \"padward-board/1\", \"name\": \"b\", \"pads\": [{}]}",
                "ledger; {\"format\": \"padward-ledger/1\", \"design\": \"d\", \"entries\": []}",
                "changes; {\"format\": \"padward-changes/1\", \"design\": \"d\"}",
                "design; {\"format\": \"padward-design/1\", \"name\": 7, \"fabric\": \"f\"}",
                "fabric; {\"format\": \"padward-fabric/1\", \"form\": \"other\", \"name\": \"f\"}"
            })
    void faultyFilesDoNotFit(String schema, String text) throws Exception {
        assertThat(schema(schema).validate(text, InputFormat.JSON)).isNotEmpty();
    }
}
