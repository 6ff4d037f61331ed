package padward.format.tables.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.FilterReader;
import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Rows are those that the library's parser finds, however they are written. */
class RowReaderProperties {
    private static final String[] FIELDS = {
        "",
        "a",
        "x12y3/run[4]",
        " b ",
        "\t",
        "\"\"",
        "\"q\"",
        "\"a,b;c\"",
        "\"d\"\"e\"",
        " \"f\"",
        "\"g\" ",
        "h\"i",
        "007",
        "-1",
        "1234567890",
        "ö ƒ",
        "\u2003z\u2003",
        "\"two\nlines\"",
        "\"open",
        "\"k\"l",
        "999999999",
        "'",
        "#",
        "\\"
    };

    private static final String[] BREAKS = {"\n", "\n", "\n", "\r\n", "\r\n", "\r"};

    static LongStream seeds() {
        return LongStream.range(0, 3000);
    }

    /** Gives some characters at a time, as files do. */
    private static Reader inPieces(String text, Random random) {
        return new FilterReader(new StringReader(text)) {
            @Override
            public int read(char[] chars, int from, int length) throws IOException {
                return super.read(chars, from, 1 + random.nextInt(Math.min(20, length)));
            }
        };
    }

    private static List<List<String>> expected(String text, char separator) {
        CSVFormat format =
                CSVFormat.RFC4180
                        .builder()
                        .setDelimiter(separator)
                        .setIgnoreSurroundingSpaces(true)
                        .setIgnoreEmptyLines(false)
                        .get();
        List<List<String>> rows = new ArrayList<>();
        try (CSVParser parser = CSVParser.parse(text, format)) {
            parser.forEach(r -> rows.add(List.copyOf(r.toList())));
        } catch (IOException | UncheckedIOException e) {
            rows.add(List.of("refused"));
        }
        return rows;
    }

    private static List<List<String>> found(Reader text, char separator) {
        List<List<String>> rows = new ArrayList<>();
        try (RowReader reader = new RowReader(text, separator)) {
            while (reader.next()) {
                List<String> row = new ArrayList<>();
                for (int i = 0; i < reader.size(); i++) {
                    String field = reader.text(i);
                    row.add(field);
                    assertThat(reader.isEmpty(i)).isEqualTo(field.isEmpty());
                    assertThat(reader.text(i)).isSameAs(field);
                    boolean plain = field.matches("[0-9]{1,9}");
                    assertThat(reader.plainNumber(i))
                            .isEqualTo(plain ? Integer.parseInt(field) : -1);
                    assertThat(new String(reader.chars(), reader.start(i), field.length()))
                            .isEqualTo(field);
                }
                rows.add(row);
                assertThat(reader.number()).isEqualTo(rows.size());
            }
        } catch (IOException e) {
            rows.add(List.of("refused"));
        }
        return rows;
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void rowsAreThoseOfTheLibrary(long seed) {
        Random random = new Random(seed);
        char separator = ",;\t".charAt(random.nextInt(3));
        int kinds = random.nextBoolean() ? 7 : FIELDS.length;
        StringBuilder text = new StringBuilder();
        for (int row = random.nextInt(8); row > 0; row--) {
            for (int field = random.nextInt(20); field > 0; field--) {
                text.append(FIELDS[random.nextInt(kinds)]).append(separator);
            }
            text.append(FIELDS[random.nextInt(kinds)]);
            text.append(BREAKS[random.nextInt(BREAKS.length)]);
        }
        if (random.nextBoolean() && text.length() > 0) {
            text.setLength(text.length() - 1);
        }
        assertThat(found(inPieces(text.toString(), random), separator))
                .isEqualTo(expected(text.toString(), separator));
    }

    @Test
    void rowsMayBeLongerThanWhatIsReadAtATime() {
        StringBuilder text = new StringBuilder("a,b\r\n");
        for (int row = 0; row < 20; row++) {
            text.append("long".repeat(3000 * row)).append(',').append(row).append("\r\n");
        }
        assertThat(found(new StringReader(text.toString()), ','))
                .isEqualTo(expected(text.toString(), ','));
    }

    @Test
    void aRowWithoutEndIsRefused() {
        String field = "x".repeat(BoundedRows.LONGEST);
        assertThat(found(new StringReader("a\n" + field + "\n"), ','))
                .containsExactly(List.of("a"), List.of(field));
        assertThat(found(new StringReader("a\n" + field + "x\n"), ','))
                .containsExactly(List.of("a"), List.of("refused"));
        assertThat(found(new StringReader("a\n\"" + "x,\n".repeat(BoundedRows.LONGEST)), ','))
                .containsExactly(List.of("a"), List.of("refused"));
    }
}
