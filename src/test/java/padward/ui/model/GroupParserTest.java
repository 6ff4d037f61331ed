package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.format.design.DesignReader;

class GroupParserTest {
    private Design design;

    @BeforeEach
    void read() throws Exception {
        design = DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
    }

    @Test
    void namesAndPatternsStandBetweenCommas() throws Exception {
        assertThat(GroupFieldsParser.nets(design, " pump/level/sample[1],, pump/level/sample[*] "))
                .extracting(Net::name)
                .startsWith("pump/level/sample[1]", "pump/level/sample[0]")
                .doesNotHaveDuplicates();
        int pad = NameLookup.requirePad(design, "J1.3", "pads");
        assertThat(GroupFieldsParser.pads(design, "J1.3, header J1"))
                .contains(pad)
                .doesNotHaveDuplicates();
        assertThat(GroupFieldsParser.pads(design, "any")).hasSize(design.fabric().pads().size());
    }

    @Test
    void faultsNameTheField() {
        assertThatThrownBy(() -> GroupFieldsParser.nets(design, " , "))
                .isInstanceOf(BadInput.class)
                .hasMessage(
                        "nets: expected names of nets, or patterns that match some, found nothing");
        assertThatThrownBy(() -> GroupFieldsParser.nets(design, "pump/level/sample[*], nosuch"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("nets: ")
                .hasMessageContaining("nosuch");
        assertThatThrownBy(() -> GroupFieldsParser.pads(design, "J77.1"))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("pads: ")
                .hasMessageContaining("J77.1");
    }
}
