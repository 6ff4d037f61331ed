package padward.format.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.zip.GZIPOutputStream;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;

/** An invented device of four tiles by three, as tables, with every possible fault. */
class TableFaultsTest {
    private static final Map<String, String> SOUND =
            Map.ofEntries(
                    Map.entry(
                            "cell_kinds",
                            "name,holds_state,table_inputs,table_output,table_setting,"
                                    + "register_data,register_clock,register_output\n"
                                    + "lut,no,in,out,rows,,,\nreg,yes,,,,,,\n"),
                    Map.entry("banks", "name,millivolts\nA,3300\n"),
                    Map.entry(
                            "settings",
                            "name,millivolts,milliamps,fast_ps,slow_ps\ns8,3300,8,900,1500\n"),
                    Map.entry(
                            "wires",
                            "name,kind,to_tile\nx0y0/e,e1,x1y0\nx1y0/e,e1,x2y0\nx2y0/e,e1,x3y0\n"
                                    + "x0y2/e,e1,x1y2\nx1y2/w,w1,x0y2\n"),
                    Map.entry(
                            "sites", "name,kind,accepts\nx1y0/c,logic,lut|reg\nx3y0/c,logic,lut\n"),
                    Map.entry(
                            "pins",
                            "site,name,direction\nx1y0/c,in,in\nx1y0/c,out,out\nx3y0/c,in,in\n"
                                    + "x3y0/c,out,out\n"),
                    Map.entry("through", "site,from,to,delay_ps\nx1y0/c,in,out,90\n"),
                    Map.entry(
                            "pads",
                            "name,package_pin,bank,directions,data,setting\n"
                                    + "x0y0/p,1,A,both,,s8\nx3y0/p,2,A,out,,s8\n"),
                    Map.entry("delays", "enters,kind,delay_ps\nwire,e1,100\npin,,50\n"),
                    Map.entry(
                            "switches",
                            "from,to,fast_ps,slow_ps\nx0y0/p,x0y0/e,,\nx0y0/e,x1y0/e,,\n"
                                    + "x0y0/e,x1y0/c.in,,\nx1y0/c.out,x1y0/e,90,120\n"
                                    + "x1y0/e,x2y0/e,,\nx2y0/e,x3y0/p,40,60\n"
                                    + "x0y2/e,x1y2/w,30,50\nx1y2/w,x0y2/e,30,50\n"
                                    + "x2y0/e,x1y0/e,30,50\n"),
                    Map.entry("cells", "name,kind,site\na,lut,x1y0/c\n"),
                    Map.entry("ports", "name,direction,pad\ni,in,x0y0/p\no,out,x3y0/p\n"),
                    Map.entry("nets", "name,required_ps\nn1,5000\nn2,\n"),
                    Map.entry("ends", "net,cell,pin,port\nn1,,,i\nn1,a,in,\nn2,a,out,\nn2,,,o\n"),
                    Map.entry(
                            "routes",
                            "net,from,to\nn1,x0y0/p,x0y0/e\nn1,x0y0/e,x1y0/c.in\n"
                                    + "n2,x1y0/c.out,x1y0/e\nn2,x1y0/e,x2y0/e\n"
                                    + "n2,x2y0/e,x3y0/p\n"),
                    Map.entry(
                            "board",
                            "pad,net,trace_mm,attached,part,part_pin\n"
                                    + "x3y0/p,OUT,12.5,header,J1,3\nx3y0/p,,,pull,R1,\n"));

    /** Table, rows that are added to the sound ones, and the one fault that must be reported. */
    private static final String[][] FAULTS = {
        {
            "about",
            "key,value\ncolumns,4\nrows,3\ncolums,4",
            "row 4, column key: expected one of fabric, "
        },
        {
            "cell_kinds",
            "mem,maybe,,,,,,",
            "row 4, column holds_state: expected yes or no, found \"maybe\""
        },
        {
            "cell_kinds",
            "lut,yes,,,,,,",
            "row 5, column name: expected each name once, found \"lut\" again"
        },
        {
            "cell_kinds",
            "look,no,in,out,,,,",
            "row 6, column table_setting: expected a value, since table_inputs is filled in, found"
                    + " an empty field"
        },
        {
            "cell_kinds",
            "twin,no,in|in,out,rows,,,",
            "row 7, column table_inputs: expected each pin once, found \"in\" again"
        },
        {
            "cell_kinds",
            "keep,no,,,,in,c,out",
            "row 8, column holds_state: expected that a register holds state, found that it does not"
        },
        {
            "cell_kinds",
            "twice,yes,in,out,rows,in,c,out",
            "row 9, column register_data: expected a lookup table or a register, found both"
        },
        {"banks", "B,lots", "row 3, column millivolts: expected a whole number from 0"},
        {
            "settings",
            "s4,3300,4,,",
            "row 3, column fast_ps: expected a delay, found an empty field"
        },
        {"tiles", "tile,type\nx99999y0,io", "row 2, column tile: expected a tile of the grid of"},
        {"wires", "x0y0/e,e1,x1y0", "row 7, column name: expected a name that no other wire"},
        {
            "wires",
            "stray,e1,x1y0",
            "row 8, column tile: expected a tile, or a name that contains one"
        },
        {
            "wires",
            "x1y1/n,n1,z9",
            "row 9, column to_tile: expected a tile's name, such as x3y4, found"
        },
        {"wires", ",e1,x1y0", "row 10, column name: expected a name, found an empty field"},
        {"wires", "x2y2/e,e1", "row 11: expected 3 fields, as in the header, found 2"},
        {
            "sites",
            "x2y0/c,logic,lut|regs",
            "column accepts: expected the name of a kind of cell, found"
                    + " \"regs\" (did you mean \"reg\"?)"
        },
        {"sites", "x3y0/c,logic,lut", "row 5, column name: expected a name that only one site has"},
        {
            "pins",
            "x2y0/d,in,in",
            "row 6, column site: expected the full name of a site, found"
                    + " \"x2y0/d\" (did you mean \"x2y0/c\"?)"
        },
        {"pins", "x2y0/c,in,inwards", "row 7, column direction: expected one of in, out, found"},
        {
            "pins",
            "x3y0/c,in,in",
            "row 8, column name: expected each pin of a site once, found \"in\" of \"x3y0/c\" again"
        },
        {
            "through",
            "x1y0/c,nix,out,90",
            "row 3, column from: expected the name of an in pin of site"
        },
        {
            "through",
            "x1y0/c,in,out,80",
            "row 4, column to: expected each pass-through of a site once"
        },
        {
            "pads",
            "x2y0/p,2,A,both,,",
            "column package_pin: expected a pin that only one pad has,"
                    + " found \"2\", which row 3 has already"
        },
        {"pads", "x2y0/q,3,C,both,,", "row 5, column bank: expected the name of a bank"},
        {"pads", "x2y0/r,4,A,both,x9y9/c,", "row 6, column data: expected the full name of a site"},
        {
            "pads",
            "x2y0/s,5,A,both,,s9",
            "row 7, column setting: expected the name of a driver setting,"
                    + " found \"s9\" (did you mean \"s8\"?)"
        },
        {"delays", "wire,e7,80", "row 4, column kind: expected a kind of wire that some wire has"},
        {
            "switches",
            "x2y0/e,x2y0/p,,",
            "row 11, column fast_ps: expected a delay, as table delays has" + " none for pads"
        },
        {"switches", "x2y0/e,x9y9/e,,", "row 12, column to: expected the full name of a wire"},
        {"switches", "x1y0/e,x2y0/e,10,20", "row 13, column to: expected one connection from"},
        {"switches", "x1y0/e,x1y0/e,10,20", "row 14, column to: expected two different ends"},
        {
            "switches",
            "x1y0/e,x0y0/e,300,200",
            "row 15, column slow_ps: expected a slow delay of at"
                    + " least the fast one, 300 ps, found 200 ps"
        },
        {"switches", "x2y0/e,x3y0/c.in,1.5,2", "row 16, column fast_ps: expected a whole number"},
        {"cells", "b,ram,x3y0/c", "row 3, column kind: expected a kind of cell that site x3y0/c"},
        {"cells", "a,lut,x3y0/c", "row 4, column name: expected a name that only one cell has"},
        {
            "cells",
            "c,lut,x1y0/c",
            "row 5, column kind: expected one cell on site x1y0/c, found \"a\"" + " and \"c\""
        },
        {"cells", "d,lut,nowhere", "row 6, column site: expected the full name of a site"},
        {
            "ports",
            "k,in,x3y0/p",
            "row 4, column direction: expected a direction that pad x3y0/p has"
        },
        {"ports", "m,out,x8y8/p", "row 5, column pad: expected the full name of a pad"},
        {"nets", "n3,soon", "row 3, column required_ps: expected a whole number"},
        {
            "nets",
            "n4,",
            "row 4, column name: expected a net with a driver in table ends, found \"n4\""
        },
        {"ends", "n1,zz,in,", "row 6, column cell: expected the name of a cell"},
        {"ends", "n1,a,out,", "row 7, column pin: expected each end of one net, once, found a.out"},
        {"ends", "n2,a,in,i", "row 8, column cell: expected either a cell and a pin, or a port"},
        {"ends", "n4,,,o", "row 9, column port: expected each end of one net, once, found port o"},
        {"ends", "n9,,,o", "row 10, column net: expected the name of a net"},
        {
            "routes",
            "n2,x2y0/e,x1y0/e",
            "row 7, column to: expected a wire, pin or pad that is driven"
                    + " once, found \"x1y0/e\", which row 4 drives"
        },
        {"routes", "n1,x0y2/e,x1y2/w\nn1,x1y2/w,x0y2/e", "expected a route without loops"},
        {"routes", "n1,x0y0/f,x1y0/e", "row 10, column from: expected the full name of a wire"},
        {"routes", "n1,x1y0/e,x9y9/e", "row 11, column to: expected the full name of a wire"},
        {"board", "x0y0/p,IN,-3,header,J1,4", "row 4, column trace_mm: expected a number from 0"},
        {"board", "x2y0/p,,1,,J2,", "row 5, column attached: expected what is attached"},
        {"board", "x7y7/p,,1,,,", "row 6, column pad: expected the full name of a pad"},
        {"board", "x3y0/p,AUX,,,,", "row 7, column net: expected one net on a pad, \"OUT\", found"},
        {"wirs", "name\nx0y0/z", "expected a table of one of the names about, "}
    };

    private static Path write(Path folder, Map<String, String> tables) throws Exception {
        for (Map.Entry<String, String> table : tables.entrySet()) {
            Files.writeString(folder.resolve(table.getKey() + ".csv"), table.getValue());
        }
        return folder;
    }

    private static TableImport.Faulty faults(Path folder, int most) throws Exception {
        return (TableImport.Faulty) TableImport.read(folder, most, Progress.NONE);
    }

    @Test
    void tablesWithoutFaultsAreImported(@TempDir Path folder) throws Exception {
        TableImport.Result result = TableImport.read(write(folder, SOUND), 9, Progress.NONE);
        Assertions.assertThat(result).isInstanceOf(TableImport.Sound.class);
        TableImport.Sound sound = (TableImport.Sound) result;
        assertThat(sound.fabric().columns()).isEqualTo(4);
        assertThat(sound.fabric().rows()).isEqualTo(3);
        assertThat(sound.design().orElseThrow().nets()).hasSize(2);
        assertThat(sound.board().wirings().get(0).attachments()).hasSize(2);
    }

    @Test
    void everyFaultOfATableSetIsReportedOnce(@TempDir Path folder) throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        for (String[] fault : FAULTS) {
            tables.merge(fault[0], fault[1] + "\n", String::concat);
        }
        // a net must be sound otherwise, or it has two faults
        tables.computeIfPresent(
                "nets", (n, text) -> text.replace("n3,soon\n", "").replace("n2,\n", "n2,soon\n"));
        TableImport.Faulty found = faults(write(folder, tables), 1000);
        List<String> messages = new ArrayList<>();
        found.shown().forEach(f -> messages.add(f.getMessage()));
        for (String[] fault : FAULTS) {
            String own = fault[2].contains(".csv") ? fault[2] : fault[0] + ".csv";
            List<String> fitting =
                    messages.stream().filter(m -> m.contains(own) && m.contains(fault[2])).toList();
            assertThat(fitting).as(fault[0] + ": " + fault[1]).hasSize(1);
        }
        assertThat(messages).as(String.join("\n", messages)).hasSize(FAULTS.length);
        assertThat(FAULTS.length).isGreaterThanOrEqualTo(30);
        assertThat(found.total()).isEqualTo(FAULTS.length);
    }

    @Test
    void faultsOfHowPadsAreDrivenAreNamed(@TempDir Path folder) throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        tables.put(
                "pads",
                "name,directions,inverts,legal_settings,partner\n"
                        + "x0y0/p,both,maybe,,x9y9/p\nx3y0/p,out,,s8|s9,\n");
        assertThat(faults(write(folder, tables), 100).shown())
                .extracting(BadInput::getMessage)
                .anyMatch(m -> m.contains("row 2, column inverts: expected yes or no"))
                .anyMatch(m -> m.contains("row 3, column legal_settings: expected"))
                .anyMatch(
                        m ->
                                m.contains(
                                        "row 2, column partner: expected the full name of another"
                                                + " pad, found \"x9y9/p\""));
    }

    @Test
    void whatIsUnusableOrLockedIsSaidInKnownWords(@TempDir Path folder) throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        tables.put("wires", SOUND.get("wires").replace("name,kind", "name,unusable"));
        tables.put("sites", SOUND.get("sites").replace("name,kind,accepts", "name,kind,unusable"));
        tables.put("cells", "name,locked,site\na,lut,x1y0/c\n");
        tables.put("nets", "name,locked\nn1,yes\nn2,\n");
        assertThat(faults(write(folder, tables), 100).shown())
                .extracting(BadInput::getMessage)
                .anyMatch(
                        m -> m.contains("wires.csv, at row 2, column unusable: expected yes or no"))
                .anyMatch(
                        m -> m.contains("sites.csv, at row 2, column unusable: expected yes or no"))
                .anyMatch(m -> m.contains("cells.csv, at row 2, column locked: expected yes or no"))
                .anyMatch(
                        m ->
                                m.contains(
                                        "nets.csv, at row 2, column locked: expected one of wires,"
                                                + " whole, found \"yes\""));
    }

    @Test
    void pinsOfSitesWhoseNamesHaveDotsAreNotTakenForEachOther(@TempDir Path folder)
            throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        tables.merge("sites", "x0y1/a,logic,lut\nx0y1/a.b,logic,lut\n", String::concat);
        tables.merge("pins", "x0y1/a,b.in,in\nx0y1/a.b,in,in\nx1y0/c,in,in\n", String::concat);
        assertThat(faults(write(folder, tables), 100).shown())
                .extracting(BadInput::getMessage)
                .filteredOn(m -> m.contains("each pin of a site once"))
                .singleElement()
                .asString()
                .contains("\"in\" of \"x1y0/c\" again");
    }

    @Test
    void beyondALimitFaultsAreOnlyCounted(@TempDir Path folder) throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        tables.merge("switches", "x2y0/e,gone,1,2\n".repeat(50), String::concat);
        TableImport.Faulty found = faults(write(folder, tables), 7);
        assertThat(found.shown()).hasSize(7);
        assertThat(found.total()).isEqualTo(50);
        assertThat(found.countByTable().keySet()).allMatch(t -> t.endsWith("switches.csv"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '~',
            value = {
                "name,kind,too_tile\\nx0y0/e,e1,x1y0|row 1: expected one of the columns",
                "kind\\ne1|row 1: expected a column \"name\", found only \"kind\"",
                "name,name\\nx0y0/e,f|row 1, column name: expected each column once",
                "name,kind\\nx0y0/e,\"e1|fields as RFC 4180 writes them",
                "name,kind\\n\"x0y0/e\"z,e1|fields as RFC 4180 writes them",
                "~~|a header with the names of columns, found an empty file"
            })
    void aTableThatCannotBeReadIsReportedWithoutFollowingFaults(
            String text, String expected, @TempDir Path folder) throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        tables.put("wires", text.replace("\\n", "\n"));
        TableImport.Faulty found = faults(write(folder, tables), 100);
        assertThat(found.shown()).hasSize(1);
        assertThat(found.shown().get(0).getMessage()).contains("wires.csv").contains(expected);
    }

    /** What refers to what could not be read is not looked at again. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "pads;name,package_pin\nx0y0/p,1,,bank\n",
                "pads;name,package_pin,bank,directions\nx0y0/p,1,o\n",
                "sites;name,kind,accepts\nx1y0/c\n",
                "parts;site,name,accepts\nx1y0/c,,lut\nx1y0/c,lut,\n"
            })
    void whatWasNotReadMakesNoOtherFailure(String table, @TempDir Path folder) throws Exception {
        write(folder, SOUND);
        Files.writeString(
                folder.resolve("ports.csv"), "name,direction,pad\ni,both,x0y0/p\no,out,x3y0/p\n");
        String[] parts = table.split(";");
        Files.writeString(folder.resolve(parts[0] + ".csv"), parts[1]);
        assertThat(TableImport.read(folder, 100, Progress.NONE))
                .isInstanceOf(TableImport.Faulty.class);
    }

    @Test
    void bytesThatAreNoTextAreReported(@TempDir Path folder) throws Exception {
        write(folder, SOUND);
        byte[] latin = "name,kind\nx0y0/\u00e9,e1\n".getBytes(StandardCharsets.ISO_8859_1);
        Files.write(folder.resolve("wires.csv"), latin);
        Files.delete(folder.resolve("pads.csv"));
        Files.writeString(folder.resolve("pads.csv.gz"), "not gzip");
        assertThat(faults(folder, 9).shown())
                .extracting(BadInput::getMessage)
                .anyMatch(m -> m.contains("text in UTF-8"))
                .anyMatch(m -> m.contains("gzip data"));
    }

    @ParameterizedTest
    @ValueSource(strings = {",", ";", "\t"})
    void columnsAndSeparatorsAreFree(String separator, @TempDir Path folder) throws Exception {
        write(folder, SOUND);
        String wires =
                "KIND,#remark, Name ,row,column,to_column,to_row\r\n"
                        + "e1,\"a \"\"b\"\"\",x0y0/e,0,0,1,0\r\n\r\n"
                        + "e1, ,x1y0/e,0,1,2,0\r\ne1,,\"x2y0/e\",0,2,3,0\r\n"
                        + "e1,,x0y2/e,2,0,1,2\r\nw1,,x1y2/w,2,1,0,2\r\n";
        String text = wires.replace(",", separator);
        Files.delete(folder.resolve("wires.csv"));
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (GZIPOutputStream out = new GZIPOutputStream(packed)) {
            out.write(("\uFEFF" + text).getBytes(StandardCharsets.UTF_8));
        }
        Files.write(folder.resolve("wires.csv.gz"), packed.toByteArray());
        TableImport.Result result = TableImport.read(folder, 9, Progress.NONE);
        assertThat(result).as("" + result).isInstanceOf(TableImport.Sound.class);
        Fabric fabric = ((TableImport.Sound) result).fabric();
        int wire = fabric.findVertex("x2y0/e");
        assertThat(fabric.tileName(fabric.tile(wire))).isEqualTo("x2y0");
        assertThat(fabric.tileName(fabric.headTile(wire))).isEqualTo("x3y0");
    }

    @Test
    void delaysComeByKindOfWireAndInNanoseconds(@TempDir Path folder) throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        tables.put(
                "delays",
                "enters,kind,fast_ns,slow_ns\n"
                        + "wire,e1,0.1,0.25\n"
                        + "wire,,0.0624,0.0626\n"
                        + "pin,,0.05,0.05\n");
        TableImport.Sound sound =
                (TableImport.Sound) TableImport.read(write(folder, tables), 9, Progress.NONE);
        var fabric = sound.fabric();
        var edges = fabric.edgesOut();
        edges.reset(fabric.findVertex("x0y0/e"));
        assertThat(edges.next()).isTrue();
        assertThat(edges.delay()).isEqualTo(new Delay(100, 250));
        assertThat(edges.next()).isTrue();
        assertThat(edges.delay()).isEqualTo(new Delay(50, 50));
    }

    @Test
    void stepsOfRoutesMayComeInAnyOrder(@TempDir Path folder) throws Exception {
        Map<String, String> tables = new HashMap<>(SOUND);
        tables.put(
                "routes",
                "net,from,to\nn2,x2y0/e,x3y0/p\nn1,x0y0/e,x1y0/c.in\nn2,x1y0/e,x2y0/e\n"
                        + "n1,x0y0/p,x0y0/e\nn2,x1y0/c.out,x1y0/e\n");
        TableImport.Sound sound =
                (TableImport.Sound) TableImport.read(write(folder, tables), 9, Progress.NONE);
        assertThat(sound.design().orElseThrow().nets().get(1).route().size()).isEqualTo(4);
    }

    @Test
    void readingCanBeStopped(@TempDir Path folder) throws Exception {
        write(folder, SOUND);
        Progress stopped =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {}

                    @Override
                    public boolean cancelled() {
                        return true;
                    }
                };
        Assertions.assertThatThrownBy(() -> TableImport.read(folder, 9, stopped))
                .isInstanceOf(CancellationException.class);
    }
}
