package padward.format.bsdl;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.format.fabric.FabricReader;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/**
 * Constructs of IEEE 1149.1 (entity, port list with all five modes, PIN_MAP_STRING) as published
 * introductions show them; the map below is the standard's own example, abridged.
 */
class BsdlTest {
    private static final String TEXT =
            """
            -- the part of the standard's example
            entity ttl is
              generic(PHYSICAL_PIN_MAP : string := "DW");
              port (OE_NEG1:in bit;
                    Y1:out bit_vector(1 to 4);
                    A1:inout bit_vector(4 downto 3);
                    CLKOUT: buffer bit; -- two states
                    GND, VCC:linkage bit); -- no semicolon behind the last
              use STD_1149_1_1990.all;
              attribute PIN_MAP of ttl : entity is PHYSICAL_PIN_MAP;
              constant DW : Pin_Map_String:="OE_NEG1:1, Y1:(2,3,4,5)," &
                 "GND:6, VCC:18, A1:(B7, B8), CLKOUT:C_9";
              constant FK : PIN_MAP_STRING := "oe_neg1:9, Y1:(10,11,12,13)";
              attribute INSTRUCTION_LENGTH of ttl : entity is 8;
            end ttl;
            """;

    @TempDir private Path folder;

    private PackagePins read(String text, String map) throws Exception {
        Path file = Files.writeString(folder.resolve("t.bsdl"), text);
        return BsdlReader.read(file, map, Progress.NONE);
    }

    @Test
    void theStandardsExample() throws Exception {
        PackagePins pins = read(TEXT, "");
        assertThat(pins.entity()).isEqualTo("ttl");
        assertThat(pins.map()).isEqualTo("DW");
        assertThat(pins.pins())
                .extracting(p -> p.pin() + " " + p.port() + " " + p.mode().label())
                .containsExactly(
                        "1 OE_NEG1 in",
                        "2 Y1(1) out",
                        "3 Y1(2) out",
                        "4 Y1(3) out",
                        "5 Y1(4) out",
                        "6 GND linkage",
                        "18 VCC linkage",
                        "B7 A1(4) inout",
                        "B8 A1(3) inout",
                        "C_9 CLKOUT buffer");
        assertThat(read(TEXT, "fk").pins()).extracting(PackagePins.Pin::pin).contains("13");
        assertThat(pins.byPort().get("y1[2]").pin()).isEqualTo("3");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "Y1:(2,3,4,5)|Y1:(2,3,4)|4 pins of port Y1, found 3",
                "CLKOUT:C_9|CLKUOT:C_9|a port of entity ttl, found \"clkuot\" (did you mean",
                "GND:6|GND:5|each pin once, found \"5\" again",
                "GND:6|GND 6|\":\" behind \"GND\"",
                "A1:(B7, B8)|OE_NEG1:B7|each port once",
                "in bit;|into bit;|one of in, out, buffer, inout, linkage, found \"into\"",
                "buffer bit;|buffer byte;|bit or bit_vector",
                "1 to 4|1 upto 4|to or downto",
                "4 downto 3|3 downto 4|1 to 100000 bits, found 0",
                "entity ttl is|entity 7 is|the entity's name",
                ":= \"DW\"|:= \"DX\"|one of the maps of pins DW, FK, found \"DX\"",
                "linkage bit);|linkage bit;);|the name of a port",
                "end ttl;|--|\"end\""
            })
    void faultsAreReported(String right, String wrong, String expected) {
        assertThat(TEXT).contains(right);
        BadInput fault =
                catchThrowableOfType(BadInput.class, () -> read(TEXT.replace(right, wrong), ""));
        assertThat(fault.getMessage()).contains(expected).contains("t.bsdl");
    }

    @Test
    void padsAreFilledAndChecked() throws Exception {
        Fabric fabric =
                FabricReader.read(Path.of("fixtures/small/only.fabric.json"), Progress.NONE);
        PackagePins pins =
                BsdlReader.read(Path.of("fixtures/package/larch-8.bsdl"), "", Progress.NONE);
        assertThat(PinCheck.differences(fabric, pins)).isEmpty();
        Path tables = folder.resolve("tables");
        TableExport.write(fabric, tables, false, Progress.NONE);
        // the pad table as a dump might have it: ports, but no pins and no directions
        StringBuilder table = new StringBuilder("name,bsdl_port,bank,data,enable\n");
        for (Pad pad : fabric.pads()) {
            PackagePins.Pin pin = pins.byPin().get(pad.packagePin());
            table.append(pad.name()).append(',').append(pin.port()).append(',');
            table.append(pad.bank()).append(',').append(site(fabric, pad.dataSite()));
            table.append(',').append(site(fabric, pad.enableSite())).append('\n');
        }
        Files.writeString(tables.resolve("pads.csv"), table.toString());
        TableImport.Sound sound =
                (TableImport.Sound) TableImport.read(tables, Optional.of(pins), 9, Progress.NONE);
        assertThat(sound.fabric().pads())
                .extracting(Pad::packagePin)
                .isEqualTo(fabric.pads().stream().map(Pad::packagePin).toList());
        assertThat(sound.fabric().pads())
                .extracting(Pad::directions)
                .isEqualTo(fabric.pads().stream().map(Pad::directions).toList());
    }

    private static String site(Fabric fabric, int site) {
        return site == Fabric.NOTHING ? "" : fabric.site(site).name();
    }

    @Test
    void padsThatDifferAreReported() throws Exception {
        Fabric fabric =
                FabricReader.read(Path.of("fixtures/small/only.fabric.json"), Progress.NONE);
        PackagePins pins =
                BsdlReader.read(Path.of("fixtures/package/larch-8.bsdl"), "", Progress.NONE);
        Path tables = folder.resolve("tables");
        TableExport.write(fabric, tables, false, Progress.NONE);
        String text = Files.readString(tables.resolve("pads.csv"));
        Files.writeString(
                tables.resolve("pads.csv"),
                text.replace("F3,A,in", "F3,A,both")
                        .replace(",F8,", ",Z8,")
                        .replace(",F7,", ",TCK,"));
        TableImport.Faulty faulty =
                (TableImport.Faulty) TableImport.read(tables, Optional.of(pins), 9, Progress.NONE);
        assertThat(faulty.shown())
                .extracting(BadInput::getMessage)
                .anyMatch(
                        m ->
                                m.contains(
                                        "column directions: expected in, as port IN_F3 is of mode in"))
                .anyMatch(m -> m.contains("column package_pin: expected a pin that"))
                .hasSize(3);
    }

    /** A list of names with one long vector is a short text. */
    @Test
    void bitsOfAllPortsAreCountedBeforeTheyAreMade() {
        StringBuilder names = new StringBuilder("P0");
        for (int i = 1; i < 5000; i++) {
            names.append(", P").append(i);
        }
        String ports = names + ":in bit_vector(1 to 100000);";
        BadInput fault =
                catchThrowableOfType(
                        BadInput.class, () -> read(TEXT.replace("OE_NEG1:in bit;", ports), ""));
        assertThat(fault.expected()).isEqualTo("at most 100000 bits of all ports");
    }
}
