package padward.format.fabric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Delay;

/** What a fabric may state of resistances, capacitances and drivers, read and written back. */
class ElectricalPartsTest {
    private static final String OUTPUT =
            "\"output\": {\"rated_pf\": 5, \"rise_ps\": [900, 1600], \"ohms\": [25, 45]}";
    private static final String ELECTRICAL =
            "\"electrical\": {\"wires\": [{\"wire\": \"run1_e\", \"ohms\": [40, 60],"
                    + " \"femtofarads\": [30, 45]}], \"switches\": [{\"from\": \"run1_e\", \"to\":"
                    + " \"*\", \"buffered\": false, \"ohms\": [700, 1200], \"femtofarads\":"
                    + " [2, 3]}]}";

    @TempDir private Path folder;

    private Path withParts(String output, String electrical) throws Exception {
        String text = Files.readString(Path.of("fixtures/small/only.fabric.json"));
        int setting = text.indexOf("\"delay_ps\"", text.indexOf("\"settings\""));
        text = text.substring(0, setting) + output + ", " + text.substring(setting);
        int banks = text.indexOf("\"banks\"");
        text = text.substring(0, banks) + electrical + ", " + text.substring(banks);
        return Files.writeString(folder.resolve("f.json"), text);
    }

    @Test
    void readAndWrittenBack() throws Exception {
        Fabric fabric = FabricReader.read(withParts(OUTPUT, ELECTRICAL), Progress.NONE);
        var output = fabric.info().settings().get(0).output().orElseThrow();
        assertThat(output.rise()).isEqualTo(new Delay(900, 1600));
        var found = fabric.info().electrical().findSwitch("run1_e", "pin").orElseThrow();
        assertThat(found.buffered()).isFalse();
        assertThat(found.ohms()).isEqualTo(new AtCorners(700, 1200));
        assertThat(fabric.info().electrical().findSwitch("run1_n", "run1_e")).isEmpty();
        Path explicit = folder.resolve("explicit.json");
        FabricWriter.write(fabric, explicit);
        Fabric again = FabricReader.read(explicit, Progress.NONE);
        assertThat(again.info()).isEqualTo(fabric.info());
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "\"wire\": \"run1_e\"; \"wire\": \"e9\"; $.electrical.wires[0].wire",
                "\"ohms\": [40, 60]; \"ohms\": [60, 40]; $.electrical.wires[0].ohms[1]",
                "\"from\": \"run1_e\"; \"from\": \"pim\"; $.electrical.switches[0].from",
                "\"buffered\": false; \"buffered\": 0; $.electrical.switches[0].buffered"
            })
    void faultsAreNamed(String sound, String broken, String place) throws Exception {
        Path file = withParts(OUTPUT, ELECTRICAL.replace(sound, broken));
        BadInput fault =
                catchThrowableOfType(BadInput.class, () -> FabricReader.read(file, Progress.NONE));
        assertThat(fault).hasMessageContaining(place);
    }
}
