package padward.design;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.design.DesignReader;

/** What a person may write for a net or a pad. The design and its board are invented. */
class NameLookupTest {
    private static final String NET = "pump/level/sample[1]";

    private static Design design;

    @BeforeAll
    static void read() throws BadInput {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                NET,
                "*sample[1]",
                "pump/*/sample?1]",
                "PUMP/level/Sample[1]",
                "level/sample[1]",
                "SAMPLE[1]"
            })
    void aNetIsFoundByNamePatternOrLastParts(String text) throws BadInput {
        assertThat(NameLookup.requireNet(design, text, "--net").name()).isEqualTo(NET);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "x7y3/pad[0]",
                "D7",
                "d7",
                "motor",
                "MOTOR",
                "J1.3",
                "j1.3",
                "X7Y3/pad[0]",
                "x7y3/*0]"
            })
    void aPadIsFoundByAnyOfItsNames(String text) throws BadInput {
        int pad = NameLookup.requirePad(design, text, "--pad");
        assertThat(design.fabric().pads().get(pad).name()).isEqualTo("x7y3/pad[0]");
    }

    @Test
    void severalMatchesAreListed() {
        NameLookup.Match<Net> match = NameLookup.net(design, "pump/level/sample[*]");
        assertThat(((NameLookup.Match.Several<Net>) match).names())
                .hasSizeGreaterThan(1)
                .contains(NET);
        assertThatThrownBy(() -> NameLookup.requireNet(design, "*sample[*]", "net"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith(
                        "net: expected the name of a net, or a pattern that matches only one, found"
                                + " “*sample[*]”, which matches ")
                .hasMessageContaining(NET);
        assertThat(NameLookup.pad(design, "pad[0]")).isInstanceOf(NameLookup.Match.Several.class);
    }

    @Test
    void aWordWithinANameIsOnlyAHint() {
        assertThat(NameLookup.net(design, "motor_o"))
                .isEqualTo(new NameLookup.Match.None<Net>(List.of("pump/run/motor_out")));
        assertThatThrownBy(() -> NameLookup.requireNet(design, "motor_o", "--net"))
                .hasMessageEndingWith("“motor_o”; the nearest name is “pump/run/motor_out”");
    }

    @Test
    void aMisspeltNameHasTheNearestAsAHint() {
        assertThatThrownBy(() -> NameLookup.requireNet(design, "clk13", "--net"))
                .hasMessageEndingWith("“clk13”; the nearest name is “clk12”");
    }

    @Test
    void nothingWrittenIsSaidToBeNothing() {
        assertThat(NameLookup.net(design, "")).isInstanceOf(NameLookup.Match.None.class);
        assertThatThrownBy(() -> NameLookup.requirePad(design, "", "pad"))
                .hasMessageEndingWith("found nothing");
    }

    @Test
    void aPadIsFoundByItsFullNameAlone() {
        assertThat(PadNames.findExact(design.fabric(), "x7y3/pad[0]")).isPresent();
        assertThat(PadNames.findExact(design.fabric(), "D7")).isEmpty();
    }
}
