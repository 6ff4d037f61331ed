package padward.format.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.TableShape;

/** The tables as {@code docs/your-own-device.md} shows them are those that are read. */
class TableDocsTest {
    static List<TableShape> tables() {
        return Tables.ALL;
    }

    @ParameterizedTest
    @MethodSource("tables")
    void theGuideShowsEveryColumn(TableShape shape) throws Exception {
        String guide = Files.readString(Path.of("docs/your-own-device.md"));
        assertThat(guide).contains(markdown(shape));
    }

    static String markdown(TableShape shape) {
        StringBuilder text = new StringBuilder();
        text.append("### `").append(shape.name()).append("`: ").append(shape.meaning());
        text.append("\n\n| column | needed | what stands there |\n|---|---|---|\n");
        for (ColumnShape column : shape.columns()) {
            text.append("| `").append(column.name()).append("` | ");
            text.append(column.need() == ColumnShape.Need.MUST ? "yes" : "");
            text.append(column.need() == ColumnShape.Need.INSTEAD ? "instead" : "");
            text.append(" | ").append(column.meaning().replace("|", "\\|")).append(" |\n");
        }
        return text.toString();
    }

    /** Prints all of them, to be copied into the guide. */
    public static void main(String[] args) {
        Tables.ALL.forEach(t -> System.out.println(markdown(t)));
    }
}
