package padward.format;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.format.design.BoardReader;
import padward.format.design.DesignReader;
import padward.format.fabric.FabricReader;
import padward.format.ledger.LedgerReader;
import padward.format.netlist.CellMappingReader;
import padward.handover.ChangeListText;
import padward.lesson.file.LearnerFile;
import padward.lesson.file.LessonReader;

/** The published schemas are those that follow from the forms that files are read with. */
class SchemaFilesTest {
    private static final Path FOLDER = Path.of("src/main/resources/padward/format");

    static Map<String, String> all() {
        Map<String, String> all = new TreeMap<>();
        all.put("board", BoardReader.schema());
        all.put("changes", ChangeListText.schema());
        all.put("design", DesignReader.schema());
        all.put("fabric", FabricReader.schema());
        all.put("learner", LearnerFile.schema());
        all.put("ledger", LedgerReader.schema());
        all.put("lesson", LessonReader.schema());
        all.put("mapping", CellMappingReader.schema());
        return all;
    }

    static Iterable<Map.Entry<String, String>> schemas() {
        return all().entrySet();
    }

    @ParameterizedTest
    @MethodSource("schemas")
    void thePublishedSchemaIsThatOfTheForm(Map.Entry<String, String> schema) throws Exception {
        Path file = FOLDER.resolve(schema.getKey() + ".schema.json");
        assertThat(Files.readString(file)).isEqualTo(schema.getValue());
    }

    /** Writes all of them. */
    public static void main(String[] args) throws Exception {
        for (Map.Entry<String, String> schema : schemas()) {
            Files.writeString(FOLDER.resolve(schema.getKey() + ".schema.json"), schema.getValue());
        }
    }
}
