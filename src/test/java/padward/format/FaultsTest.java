package padward.format;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.BadInput;
import padward.base.Progress;

/**
 * Each kind of fault in a file gives one line that says where, what was expected, what stood there.
 */
class FaultsTest {
    private static final Path SMALL = Path.of("fixtures/small");

    @TempDir private Path folder;
    private String design;
    private String fabric;

    @BeforeEach
    void copy() throws Exception {
        for (String name : new String[] {"only.fabric.json", "board.json"}) {
            Files.copy(SMALL.resolve(name), folder.resolve(name));
        }
        design = Files.readString(SMALL.resolve("only.design.json"));
        fabric = Files.readString(SMALL.resolve("only.fabric.json"));
    }

    private BadInput faultOfDesign(String text) throws Exception {
        Path file = folder.resolve("d.design.json");
        Files.writeString(file, text);
        return catchThrowableOfType(BadInput.class, () -> DesignReader.read(file, Progress.NONE));
    }

    private BadInput faultOfFabric(String text) throws Exception {
        Path file = folder.resolve("f.fabric.json");
        Files.writeString(file, text);
        return catchThrowableOfType(BadInput.class, () -> FabricReader.read(file, Progress.NONE));
    }

    private static String replaceOnce(String text, String what, String with) {
        assertThat(text).contains(what);
        int at = text.indexOf(what);
        return text.substring(0, at) + with + text.substring(at + what.length());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '~',
            quoteCharacter = '`',
            value = {
                "\"name\": \"bilge-pump\" ~ \"name\": 7 ~ $.name ~ a text",
                "\"fabric\": \"only.fabric.json\" ~ \"fabric\": \"none.json\" ~ none.json ~ no such file",
                "\"board\": \"board.json\" ~ \"boord\": \"board.json\" ~ boord ~ board",
                "\"cell\": \"pump/level/hi_sync\" ~ \"cell\": \"pump/level/hi_sink\" ~ hi_sink ~ did you mean",
                "\"site\": \"x3y3/cell[0]\" ~ \"site\": \"x3y3/cell[9]\" ~ cell[9] ~ site",
                "\"site\": \"x3y3/cell[0]\" ~ \"site\": \"x2y3/cell[0]\" ~ $.cells[2] ~ one cell on site",
                "\"kind\": \"lookup-table\" ~ \"kind\": \"io-register\" ~ $.cells[4] ~ accepts",
                "\"pad\": \"x0y3/pad[1]\" ~ \"pad\": \"x0y3/pad[0]\" ~ $.ports[2] ~ one port on pad",
                "\"name\": \"float_lo\" ~ \"name\": \"float_hi\" ~ $.ports[2].name ~ again",
                "\"direction\": \"in\" ~ \"direction\": \"inwards\" ~ $.ports[0].direction ~ one of in, out, both",
                "\"pin\": \"clk\" ~ \"pin\": \"out\" ~ $.nets[0].sinks[0] ~ in pin",
                "\"x1y5/w1[0]\" ~ \"x1y5/w1[1]\" ~ $.nets ~ to which there is none",
                "\"x1y5/w1[0]\" ~ \"x99y5/w1[0]\" ~ x99y5 ~ name of a wire",
                "\"nets\": [ ~ \"nets\": [7, ~ $.nets[0] ~ an object",
            })
    void aFaultInADesignIsTold(String what, String with, String place, String said)
            throws Exception {
        BadInput fault = faultOfDesign(replaceOnce(design, what, with));
        assertThat(fault).isNotNull();
        assertThat(fault.getMessage()).contains(place).contains(said).doesNotContain("\n");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '~',
            quoteCharacter = '`',
            value = {
                "\"columns\": 8 ~ \"columns\": 0 ~ $.grid.columns ~ whole number",
                "\"columns\": 8 ~ \"columns\": 99999 ~ $.grid.columns ~ 10000",
                "\"rows\": 8 ~ \"rows\": 8.5 ~ $.grid.rows ~ whole number",
                "[60, 100] ~ [60, 50] ~ $.wires[0].delay_ps ~ at least the fast one",
                "[60, 100] ~ [-1, 100] ~ $.wires[0].delay_ps ~ whole number",
                "[60, 100] ~ [60] ~ $.wires[0].delay_ps ~ whole number",
                "\"name\": \"w1\" ~ \"name\": \"e1\" ~ $.wires[1].name ~ again",
                "\"switch\": \"plain\" ~ \"switch\": \"plaid\" ~ plaid ~ did you mean",
                "\"box\": \"wilton\" ~ \"box\": \"milton\" ~ milton ~ wilton",
                "\"to\": \"cell.in\" ~ \"to\": \"cell.inn\" ~ cell.inn ~ kind of wire, pins",
                "\"tile\": \"logic\" ~ \"tile\": \"logik\" ~ $.layout ~ did you mean",
                "\"data\": \"outreg\" ~ \"data\": \"ausreg\" ~ ausreg ~ group of sites",
                "\"form\": \"pattern\" ~ \"form\": \"round\" ~ $.form ~ explicit",
            })
    void aFaultInAFabricIsTold(String what, String with, String place, String said)
            throws Exception {
        BadInput fault = faultOfFabric(replaceOnce(fabric, what, with));
        assertThat(fault).isNotNull();
        assertThat(fault.getMessage()).contains(place).contains(said).doesNotContain("\n");
    }

    @Test
    void aVertexInTwoNetsNamesBoth() throws Exception {
        String with =
                "\"nets\": [{\"name\": \"other\", \"driver\": {\"port\": \"float_hi\"},"
                        + " \"sinks\": []}, ";
        BadInput fault = faultOfDesign(replaceOnce(design, "\"nets\": [", with));
        assertThat(fault.getMessage()).contains("x0y3/pad[0]").contains("\"other\" and \"");
    }

    @Test
    void whatIsNotJsonIsTold() throws Exception {
        assertThat(faultOfDesign("hello").getMessage()).contains("JSON");
        assertThat(faultOfDesign("").getMessage()).contains("d.design.json");
        assertThat(faultOfDesign("[]").getMessage()).contains("an object");
        assertThat(faultOfDesign(design + " x").getMessage()).contains("JSON");
        assertThat(faultOfDesign("{\"format\": \"other/1\"}").getMessage()).contains("$.format");
    }

    @Test
    void aMissingFileAndFalseGzipAreTold() throws Exception {
        Path missing = folder.resolve("missing.json");
        assertThat(
                        catchThrowableOfType(
                                        BadInput.class,
                                        () -> DesignReader.read(missing, Progress.NONE))
                                .getMessage())
                .contains("missing.json")
                .contains("no such file");
        Path gzip = folder.resolve("d.json.gz");
        Files.writeString(gzip, design);
        assertThat(
                        catchThrowableOfType(
                                        BadInput.class,
                                        () -> DesignReader.read(gzip, Progress.NONE))
                                .getMessage())
                .contains("gzip");
    }

    @Test
    void aByteOrderMarkIsPassedOver() throws Exception {
        assertThat(faultOfDesign("\uFEFF" + design)).isNull();
    }

    static LongStream seeds() {
        return LongStream.range(0, 300);
    }

    /** Whatever bytes come, the reader reads them or says what is wrong: nothing else. */
    @ParameterizedTest
    @MethodSource("seeds")
    void damagedFilesAreReadOrTold(long seed) throws Exception {
        Random random = new Random(seed);
        boolean ofDesign = random.nextBoolean();
        byte[] bytes = (ofDesign ? design : fabric).getBytes(StandardCharsets.UTF_8);
        if (random.nextInt(3) == 0) {
            bytes = Arrays.copyOf(bytes, random.nextInt(bytes.length));
        }
        String letters = "{}[]\",:0123456789-.eE+truefalsn\\ x\u0000";
        for (int i = random.nextInt(4); i > 0 && bytes.length > 0; i--) {
            char letter = letters.charAt(random.nextInt(letters.length()));
            bytes[random.nextInt(bytes.length)] = (byte) letter;
        }
        Path file = folder.resolve(ofDesign ? "d.design.json" : "f.fabric.json");
        Files.write(file, bytes);
        try {
            if (ofDesign) {
                DesignReader.read(file, Progress.NONE);
            } else {
                FabricReader.read(file, Progress.NONE);
            }
        } catch (BadInput told) {
            assertThat(told.getMessage()).contains(folder.toString()).contains("expected");
        }
    }
}
