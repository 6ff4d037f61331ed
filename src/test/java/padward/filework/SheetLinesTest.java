package padward.filework;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Sheets are read as they were written. */
class SheetLinesTest {
    @TempDir private Path folder;

    /** A calibration shows pads, board and leads, not by how many cycles a circuit is late. */
    @Test
    void aMeasuredDelayIsLaterByTheCyclesToo() throws Exception {
        Path sheet = folder.resolve("sheet.csv");
        Files.writeString(
                sheet,
                "net,instrumentFast_ps,instrumentSlow_ps,measured_ps,lateCycles,lateClock\n"
                        + "a,100,200,-50,2,clk\nb,100,200,50,,\n");
        SheetLines lines = SheetLines.read(sheet);
        assertThat(lines.find("a").orElseThrow().delayWith(1000).outsidePs()).isEqualTo(2100);
        assertThat(lines.find("b").orElseThrow().delayWith(1000).outsidePs()).isEqualTo(200);
    }

    /** A clock's name that a spreadsheet would calculate has an apostrophe in the sheet. */
    @Test
    void clocksAreFoundByTheirOwnNames() throws Exception {
        Path sheet = folder.resolve("sheet.csv");
        Files.writeString(
                sheet,
                "net,instrumentFast_ps,instrumentSlow_ps,lateCycles,lateClock\n"
                        + "n,100,200,2,'-clk\n");
        assertThat(SheetLines.read(sheet).mostCycles("-clk")).isEqualTo(2);
    }
}
