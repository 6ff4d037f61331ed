package padward.format;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.fabric.AlikePins;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.WholeSite;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/** Parts of sites, and sites over several tiles, in both forms of a fabric's files. */
class SitePartFilesTest {
    private static final Map<String, String> TABLES =
            Map.of(
                    "wires",
                    "name\nx0y0/a\nx0y0/b\nx1y0/c\n",
                    "pads",
                    "name\nx1y0/pad\n",
                    "parts",
                    """
                    site,name,accepts
                    x0y0/cell,table,lut|carry
                    x0y0/cell,register,
                    """,
                    "sites",
                    """
                    name,kind,accepts,more_tiles
                    x0y0/cell,cell,,
                    x0y0/mem,memory,,x0y1|x0y2
                    """,
                    "pins",
                    """
                    site,name,direction,part,alike
                    x0y0/cell,a,in,table,inputs
                    x0y0/cell,d,in,register,
                    x0y0/cell,y,out,table,
                    x0y0/cell,q,out,register,
                    x0y0/mem,w,in,,
                    x0y0/cell,b,in,table,inputs
                    """,
                    "through",
                    "site,from,to,delay_ps\nx0y0/cell,a,y,5\n",
                    "switches",
                    """
                    from,to,delay_ps,kind
                    x0y0/a,x0y0/cell.a,10,
                    x0y0/cell.y,x0y0/cell.d,10,
                    x0y0/cell.q,x1y0/c,10,
                    x1y0/c,x1y0/pad,10,connection
                    """,
                    "cells",
                    """
                    name,kind,site
                    t,lut,x0y0/cell
                    r,register,x0y0/cell/register
                    """);

    @TempDir private Path folder;

    private TableImport.Result read(String table, String old, String other) throws Exception {
        Path tables = Files.createDirectories(folder.resolve("in"));
        for (Map.Entry<String, String> one : new TreeMap<>(TABLES).entrySet()) {
            String text = one.getValue();
            if (one.getKey().equals(table)) {
                assertThat(text).contains(old);
                text = text.replace(old, other);
            }
            Files.writeString(tables.resolve(one.getKey() + ".csv"), text);
        }
        return TableImport.read(tables, 10, Progress.NONE);
    }

    private Design design() throws Exception {
        return ((TableImport.Sound) read("", "", "")).design().orElseThrow();
    }

    private static void assertSites(Fabric fabric) {
        List<SiteView> sites =
                IntStream.range(0, fabric.siteCount()).mapToObj(fabric::site).toList();
        assertThat(sites)
                .extracting(SiteView::name)
                .containsExactly("x0y0/cell/table", "x0y0/cell/register", "x0y0/mem");
        assertThat(sites.get(0).described()).isEqualTo("part table of site x0y0/cell");
        assertThat(sites.get(0).accepts()).containsExactly("lut", "carry");
        assertThat(sites.get(1).accepts()).containsExactly("register");
        assertThat(sites.get(1).wholeName()).isEqualTo("x0y0/cell");
        assertThat(sites.get(2).described()).isEqualTo("site x0y0/mem");
        assertThat(sites.get(2).tiles()).containsExactly(0, 2, 4);
        assertThat(fabric.siteOf(fabric.findVertex("x0y0/cell.d"))).isEqualTo(1);
        assertThat(sites.get(1).findPin("d")).isEqualTo(fabric.findVertex("x0y0/cell.d"));
        assertThat(AlikePins.of(fabric, sites.get(0), "lut", "a")).containsExactly("b");
        assertThat(AlikePins.of(fabric, sites.get(1), "register", "d")).isEmpty();
        assertThat(fabric.findParts("x0y0/cell")).containsExactly(0, 1);
        assertThat(fabric.findParts("x0y0/mem")).isEmpty();
        assertThat(fabric.findSite("x0y0/cell")).isEqualTo(Fabric.NOTHING);
        assertThat(WholeSite.allOf(fabric))
                .extracting(WholeSite::name)
                .containsExactly("x0y0/cell", "x0y0/mem");
        assertThat(WholeSite.of(fabric, 1).parts()).hasSize(2);
    }

    @Test
    void bothFormsKeepThem() throws Exception {
        Fabric fabric = design().fabric();
        assertSites(fabric);
        Path json = folder.resolve("one.fabric.json");
        FabricWriter.write(fabric, json);
        Fabric read = FabricReader.read(json, Progress.NONE);
        assertSites(read);
        Path tables = folder.resolve("tables");
        TableExport.write(read, tables, false, Progress.NONE);
        Fabric imported =
                ((TableImport.Sound) TableImport.read(tables, 10, Progress.NONE)).fabric();
        assertSites(imported);
        Path again = folder.resolve("two.fabric.json");
        FabricWriter.write(imported, again);
        assertThat(again).hasSameBinaryContentAs(json);
        Path tablesAgain = folder.resolve("again");
        TableExport.write(imported, tablesAgain, false, Progress.NONE);
        for (String table : List.of("sites", "parts", "pins", "through")) {
            assertThat(tablesAgain.resolve(table + ".csv"))
                    .hasSameBinaryContentAs(tables.resolve(table + ".csv"));
        }
    }

    @Test
    void aCellUsesThePartThatAcceptsItsKind() throws Exception {
        Design design = design();
        assertThat(design.cells()).extracting(Cell::site).containsExactly(0, 1);
        assertThat(design.occupancy().isOccupied(design.fabric().findVertex("x0y0/cell.y")))
                .isTrue();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "parts; x0y0/cell,register,; x0y0/cel,register,; parts; row 3, column site;"
                        + "the full name of a site; \"x0y0/cel\"; did you mean \"x0y0/cell\"?",
                "parts; register,; table,; parts; row 3, column name; each part of a site once;"
                        + "\"table\" of \"x0y0/cell\" again;",
                "sites; cell,cell,,; cell,cell,lut,; sites; row 2, column accepts;"
                        + "nothing, as the parts of the site accept cells; \"lut\";",
                "sites; x0y1|x0y2; x0y1|up; sites; row 3, column more_tiles;"
                        + "names of tiles, such as x3y4, with | between them; \"up\";",
                "sites; x0y1|x0y2; x0y1|x0y0; sites; row 3, column more_tiles;"
                        + "each tile of the site once; x0y0 again;",
                "pins; cell,y,out,table,; cell,y,out,table,o; pins; row 4, column alike;"
                        + "nothing, as this is no in pin; \"o\";",
                "pins; cell,d,in,register; cell,d,in,; pins; row 3, column part;"
                        + "a part of the site: table, register; an empty field;",
                "pins; cell,d,in,register; cell,y,in,register; pins; row 4, column name;"
                        + "each pin of a site once, whatever its part; \"y\" of \"x0y0/cell\" again;",
                "pins; mem,w,in,,; mem,w,in,port,; pins; row 6, column part;"
                        + "nothing, as the site has no parts; \"port\";",
                "through; a,y,5; a,q,5; through; row 2, column to;"
                        + "the name of an out pin of part table of site x0y0/cell; \"q\";",
                "through; a,y,5; e,y,5; through; row 2, column from;"
                        + "the name of an in pin of site x0y0/cell; \"e\";",
                "cells; t,lut,; t,ram,; cells; row 2, column site;"
                        + "a part of the site: x0y0/cell/table, x0y0/cell/register;"
                        + "\"x0y0/cell\", of which no part accepts kind \"ram\";",
                "cells; t,lut,x0y0/cell; t,register,x0y0/cell/table; cells; row 2, column kind;"
                        + "a kind of cell that part table of site x0y0/cell accepts: lut, carry;"
                        + "\"register\";",
            })
    void whatTablesCannotSayIsReported(
            String table,
            String old,
            String other,
            String faulty,
            String place,
            String expected,
            String found,
            String more)
            throws Exception {
        TableImport.Result result = read(table, old, other);
        BadInput fault = ((TableImport.Faulty) result).shown().get(0);
        assertThat(fault.source()).endsWith(faulty + ".csv");
        assertThat(fault.place()).isEqualTo(place);
        assertThat(fault.expected()).isEqualTo(expected);
        assertThat(fault.found()).startsWith(found);
        assertThat(fault.found()).contains(more == null ? "" : more);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "\"accepts\": [],; \"accepts\": [\"lut\"],; $.sites[0].accepts;"
                        + "nothing, as the site has parts, which state this; 1 of them",
                "\"name\": \"register\",; \"name\": \"table\",; $.sites[0].parts[1];"
                        + "names of a part and its pins that nothing else has;"
                        + "\"table\" or one of its pins again",
                "\"to\": \"y\",; \"to\": \"q\",; $.sites[0].parts[0].through[0].to;"
                        + "the name of an out pin of the part; \"q\"",
                "\"name\": \"y\",; \"name\": \"y\", \"alike\": \"o\",;"
                        + "$.sites[0].parts[0].pins[1].alike;"
                        + "nothing, as this is no `in` pin; \"o\"",
                "{ \"name\": \"x0y0/mem\"; { \"name\": \"x0y0/cell\", \"at\": [0, 0],"
                        + " \"kind\": \"cell\", \"pins\": [], \"parts\": [{\"name\": \"more\","
                        + " \"accepts\": [], \"pins\": []}]}, { \"name\": \"x0y0/mem\";"
                        + "$.sites[1].name; a name that no other site has; \"x0y0/cell\" again",
                "[0, 2]; [0, 1]; $.sites[1].moreTiles[1]; each tile of the site once; one again",
            })
    void whatAFileCannotSayIsReported(
            String old, String other, String place, String expected, String found)
            throws Exception {
        Path json = folder.resolve("f.json");
        FabricWriter.write(design().fabric(), json);
        String text = Files.readString(json);
        int at = text.indexOf("\"sites\"");
        String sites = text.substring(at).replaceAll("\\s+", " ").replace("[ ", "[");
        sites = sites.replace(" ]", "]");
        assertThat(sites).contains(old);
        int from = sites.indexOf(old);
        String changed = sites.substring(0, from) + other + sites.substring(from + old.length());
        Files.writeString(json, text.substring(0, at) + changed);
        assertThatThrownBy(() -> FabricReader.read(json, Progress.NONE))
                .isInstanceOfSatisfying(
                        BadInput.class,
                        fault -> {
                            assertThat(fault.place()).isEqualTo(place);
                            assertThat(fault.expected()).isEqualTo(expected);
                            assertThat(fault.found()).startsWith(found);
                        });
    }
}
