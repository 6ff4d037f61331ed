package padward.format.tables;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.NoRouteReason;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;

/** Cells joined to their neighbours by connections of their own, as for a carry. */
class DedicatedChainTest {
    private static final String SWITCHES =
            "from,to,kind,fast_ps,slow_ps,tile,group\n"
                    + "x0y0/w,x0y0/pad,switch,40,60,,\n"
                    + "x0y0/add.sum,x0y0/w,switch,50,80,,\n"
                    + "x0y0/add.up,x0y1/add.below,connection,5,9,x0y1,\n"
                    + "x0y1/add.up,x0y2/add.below,connection,5,9,x0y2,\n";

    @TempDir private Path folder;

    @BeforeEach
    void writeTables() throws Exception {
        write("cell_kinds", "name,holds_state\nadder,no\nregister,yes\n");
        write("wires", "name,tile,to_tile,kind,unusable\nx0y0/w,x0y0,,short,\n");
        write(
                "sites",
                "name,tile,kind,accepts,more_tiles,unusable\nx0y0/add,x0y0,logic,adder,,\n"
                        + "x0y1/add,x0y1,logic,adder,,\nx0y2/add,x0y2,logic,adder,,\n");
        StringBuilder pins = new StringBuilder("site,name,direction,part,alike\n");
        for (int row = 0; row < 3; row++) {
            pins.append("x0y").append(row).append("/add,below,in,,\n");
            pins.append("x0y").append(row).append("/add,up,out,,\n");
            pins.append("x0y").append(row).append("/add,sum,out,,\n");
        }
        write("pins", pins.toString());
        write("pads", "name,package_pin,directions\nx0y0/pad,1,out\n");
        write("switches", SWITCHES);
        write("cells", "name,kind,site\nlow,adder,x0y0/add\nhigh,adder,x0y1/add\n");
        write("nets", "name\ncarry\nsum\n");
        write("ends", "net,cell,pin\ncarry,low,up\ncarry,high,below\nsum,low,sum\n");
        write("routes", "net,from,to\ncarry,x0y0/add.up,x0y1/add.below\n");
    }

    private void write(String table, String text) throws Exception {
        Files.writeString(folder.resolve(table + ".csv"), text);
    }

    private Design read() throws Exception {
        TableImport.Result result = TableImport.read(folder, 20, Progress.NONE);
        assertThat(result).isInstanceOf(TableImport.Sound.class);
        return ((TableImport.Sound) result).design().orElseThrow();
    }

    @Test
    void aConnectionOfTwoPinsIsReadRoutedAndWrittenAgain() throws Exception {
        Design design = read();
        Fabric fabric = design.fabric();
        int up = fabric.findVertex("x0y0/add.up");
        int below = fabric.findVertex("x0y1/add.below");
        assertThat(fabric.tileName(fabric.switchTile(up, below))).isEqualTo("x0y1");
        assertThat(design.findNet("carry").orElseThrow().route().toVertices())
                .containsExactlyInAnyOrder(up, below);
        Path again = folder.resolve("again");
        TableExport.write(design, again, false, Progress.NONE);
        assertThat(Files.readString(again.resolve("switches.csv")).lines())
                .containsExactlyInAnyOrderElementsOf(SWITCHES.lines().toList());
    }

    /** What is on such a connection alone has no route to any pad; the answer says why. */
    @Test
    void aCarryCannotBeBroughtOutButTheSumCan() throws Exception {
        Design design = read();
        assertThat(answer(design, "carry"))
                .isInstanceOfSatisfying(
                        Answer.NoRoute.class,
                        none ->
                                assertThat(none.reason())
                                        .isEqualTo(NoRouteReason.NEVER_LEAVES_ITS_SITE));
        assertThat(answer(design, "sum")).isInstanceOf(Answer.FreeRoute.class);
    }

    private static Answer answer(Design design, String name) {
        Net net = design.findNet(name).orElseThrow();
        return new Asker(design.fabric(), SearchEngineKind.OWN)
                .answer(new Question(design, net, 0, Corner.SLOW), Progress.NONE);
    }
}
