package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.ask.Caution.Kind;
import padward.breakout.group.Bus;
import padward.change.Edit;
import padward.design.Design;
import padward.design.PortDirection;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.Levels;
import padward.design.board.PadWiring;
import padward.example.HandMade;
import padward.fabric.CellKind;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadDirections;

/** What the trade warns of (common practice, no source). Invented fabrics and boards. */
class TradeCautionsTest {
    private static HandMade fabric() {
        return new HandMade()
                .bank("a", 3300)
                .setting("lv33", 3300)
                .wires("w")
                .site("s", "", "q")
                .chain("s.q w p")
                .cell("c", "s")
                .pad("p", PadDirections.BOTH, "a", "", "lv33")
                .net("n", "c.q", "", "s.q");
    }

    private static List<Caution> cautions(String boardNet, Attachment... parts) {
        Board board = new Board("b", "", List.of(new PadWiring(0, boardNet, 5, List.of(parts))));
        Design design = fabric().board(board).design();
        return Cautions.of(new Question(design, design.nets().get(0), 0, Corner.SLOW));
    }

    private static Attachment part(AttachmentKind kind, Levels levels) {
        return new Attachment(kind, "X1", "", levels);
    }

    private static Caution only(Kind kind, List<Caution> cautions) {
        List<Caution> found = cautions.stream().filter(c -> c.kind() == kind).toList();
        assertThat(found).as(cautions.toString()).hasSize(1);
        return found.get(0);
    }

    @Test
    void aLight() {
        Caution light = only(Kind.LIGHT, cautions("", part(AttachmentKind.LIGHT, Levels.UNKNOWN)));
        assertThat(light.text())
                .isEqualTo("Light X1 lights with the signal, and its current lowers the level.");
        assertThat(light.kind().isSerious()).isFalse();
    }

    @Test
    void aPullToAnUnknownRail() {
        Caution pull = only(Kind.PULL, cautions("", part(AttachmentKind.PULL, Levels.UNKNOWN)));
        assertThat(pull.text()).contains("a rail that is not known").contains("3.3 V");
    }

    @Test
    void aPullAboveTheSupplyIsSerious() {
        Caution pull =
                only(Kind.VOLTAGE, cautions("", part(AttachmentKind.PULL, new Levels(5000, 0, 0))));
        assertThat(pull.text()).contains("pulls this net to 5.0 V, above the 3.3 V");
        assertThat(pull.kind().isSerious()).isTrue();
        assertThat(cautions("", part(AttachmentKind.PULL, new Levels(3300, 0, 0))))
                .noneMatch(c -> c.kind() == Kind.PULL || c.kind() == Kind.VOLTAGE);
    }

    @Test
    void aLevelThatAPartMustTolerate() {
        Caution level =
                only(Kind.LEVEL, cautions("", part(AttachmentKind.LOAD, new Levels(1800, 0, 0))));
        assertThat(level.text())
                .isEqualTo(
                        "The pad drives 3.3 V: check that X1, supplied with 1.8 V, tolerates it"
                                + " and reads it.");
        Caution above =
                only(
                        Kind.VOLTAGE,
                        cautions("", part(AttachmentKind.LOAD, new Levels(1800, 2000, 0))));
        assertThat(above.text()).contains("tolerates at most 2.0 V, and the pad drives 3.3 V");
        assertThat(cautions("", part(AttachmentKind.LOAD, new Levels(5000, 5500, 0))))
                .noneMatch(c -> c.kind() == Kind.LEVEL || c.kind() == Kind.VOLTAGE);
    }

    @Test
    void aPartThatIsAnInputOrAnOutputByTurnsDrivesAndFollows() {
        assertThat(cautions("", part(AttachmentKind.TWO_WAY, Levels.UNKNOWN)))
                .extracting(Caution::kind)
                .contains(Kind.DRIVES, Kind.FOLLOWS);
    }

    @Test
    void testAndConfigurationPins() {
        for (String net : List.of("TMS", "JTAG_TCK", "CFG", "MODE1", "PROGRAM_B", "DONE")) {
            Caution reserved = only(Kind.CONFIGURATION, cautions(net));
            assertThat(reserved.text()).contains("“" + net + "”");
            assertThat(reserved.kind().isSerious()).isTrue();
        }
        assertThat(cautions("MOTOR")).noneMatch(c -> c.kind() == Kind.CONFIGURATION);
        assertThat(cautions("CONDONE")).noneMatch(c -> c.kind() == Kind.CONFIGURATION);
    }

    @Test
    void logicGlitchesAndRegistersDoNot() {
        Design registered = fabric().design();
        Question ofRegister = new Question(registered, registered.nets().get(0), 0, Corner.SLOW);
        assertThat(Cautions.of(ofRegister)).noneMatch(c -> c.kind() == Kind.GLITCHES);
        Design logic = fabric().kind(new CellKind("register", false)).design();
        Question ofLogic = new Question(logic, logic.nets().get(0), 0, Corner.SLOW);
        assertThat(only(Kind.GLITCHES, Cautions.of(ofLogic)).text())
                .contains("n is driven by logic, not by a register: it can glitch");
    }

    /** Pads in two banks: one line names the voltages of both. */
    @Test
    void theGeneralLineOfAGroupIsThereOnce() {
        HandMade made = new HandMade().bank("b", 3300).bank("a", 2500).setting("lv33", 3300);
        made.setting("lv25", 2500);
        for (String bank : List.of("b", "a")) {
            made.wires("w" + bank)
                    .site("s" + bank, "", "q")
                    .chain("s" + bank + ".q w" + bank + " p" + bank)
                    .cell("c" + bank, "s" + bank)
                    .pad(
                            "p" + bank,
                            PadDirections.BOTH,
                            bank,
                            "",
                            bank.equals("a") ? "lv25" : "lv33")
                    .net("n" + bank, "c" + bank + ".q", "", "s" + bank + ".q");
        }
        Design design = made.design();
        List<Question> questions =
                List.of(
                        new Question(design, design.nets().get(0), 0, Corner.SLOW),
                        new Question(design, design.nets().get(1), 1, Corner.SLOW));
        assertThat(Cautions.shared(questions))
                .filteredOn(s -> s.caution().kind() == Kind.GENERAL)
                .extracting(s -> s.caution().text())
                .containsExactly(
                        "Before driving the pad, check the schematic, the voltage of bank a"
                                + " (2.5 V), the voltage of bank b (3.3 V) and the device's data"
                                + " sheet.");
    }

    @Test
    void manyOutputsInABankAreCounted() {
        HandMade made = new HandMade().bank("a", 3300).setting("lv33", 3300);
        for (int i = 0; i < 5; i++) {
            made.wires("w" + i)
                    .site("s" + i, "", "q")
                    .chain("s" + i + ".q w" + i + " p" + i)
                    .cell("c" + i, "s" + i)
                    .pad("p" + i, PadDirections.BOTH, "a", "", "lv33")
                    .net("n" + i, "c" + i + ".q", "", "s" + i + ".q");
        }
        Design design = made.design();
        Bus bus =
                Bus.of(
                        design,
                        List.copyOf(design.nets()),
                        List.of(0, 1, 2, 3, 4),
                        Bus.Aim.SUM,
                        Bus.Ports.KEEP,
                        Progress.NONE);
        List<Cautions.Shared> all = Cautions.ofEdits(design, bus.edits());
        assertThat(all)
                .filteredOn(s -> s.caution().kind() == Kind.SWITCHING)
                .singleElement()
                .satisfies(
                        s ->
                                assertThat(s.caution().text())
                                        .startsWith(
                                                "Bank a: 0 outputs with 0 mA before, 5 outputs with"
                                                        + " 40 mA after.")
                                        .contains("device's data sheet"));
        assertThat(all)
                .filteredOn(s -> s.caution().kind() == Kind.GLITCHES)
                .singleElement()
                .satisfies(s -> assertThat(s.caution().text()).contains("need not be a value"));
        // Few new outputs are nothing to remark on.
        assertThat(Cautions.ofEdits(design, bus.edits().subList(0, 3)))
                .noneMatch(s -> s.caution().kind() == Kind.SWITCHING);
    }

    private static Design twoPads(PortDirection direction) {
        return fabric().pad("q", PadDirections.BOTH, "a", "", "lv33")
                .port("sense", direction, "q")
                .design();
    }

    @Test
    void aPortThatReadsTheBoardIsSaidToLoseItsPad() {
        Design reads = twoPads(PortDirection.IN);
        List<Caution> cautions =
                Cautions.of(new Question(reads, reads.nets().get(0), 1, Corner.SLOW));
        assertThat(only(Kind.PORT, cautions).text()).isEqualTo("Port sense loses this pad.");
        assertThat(only(Kind.READS, cautions).text()).contains("port sense");
        assertThat(cautions).extracting(Caution::kind).isSorted();
        Design drives = twoPads(PortDirection.OUT);
        assertThat(Cautions.of(new Question(drives, drives.nets().get(0), 1, Corner.SLOW)))
                .noneMatch(c -> c.kind() == Kind.READS)
                .anyMatch(c -> c.kind() == Kind.PORT);
    }

    /** While the design that was there before is loaded, the port has its pad again. */
    @Test
    void whatIsOnThePadObeysThePortAgainWhenEditsAreTakenBack() {
        Design design = twoPads(PortDirection.OUT);
        List<Edit> edits = List.of(new Edit.BreakOut("n", "out", "q", "", List.of()));
        List<Cautions.Shared> back = Cautions.ofGoingBack(design, edits);
        assertThat(back)
                .extracting(s -> s.caution().kind())
                .containsExactly(Kind.PORT, Kind.LOADING);
        assertThat(back).allSatisfy(s -> assertThat(s.pads()).containsExactly("q"));
        assertThat(back.get(0).caution().text()).startsWith("Port sense has this pad again");
        assertThat(Cautions.ofLoading(design, edits))
                .filteredOn(s -> s.caution().kind() == Kind.LOADING)
                .hasSize(1);
        assertThat(Cautions.ofGoingBack(design, List.of())).isEmpty();
    }

    @Test
    void theBoardsNetIsNamedWhereItHasAName() {
        Attachment driver = part(AttachmentKind.DRIVER, Levels.UNKNOWN);
        assertThat(only(Kind.DRIVES, cautions("SENSE", driver)).text())
                .contains("(board net SENSE)");
        assertThat(only(Kind.DRIVES, cautions("", driver)).text()).doesNotContain("board net");
    }

    @Test
    void aPadOfWhichTheBoardSaysNothingIsUnknown() {
        Design noBoard = fabric().design();
        Question nowhere = new Question(noBoard, noBoard.nets().get(0), 0, Corner.SLOW);
        assertThat(only(Kind.UNKNOWN, Cautions.of(nowhere)).text()).startsWith("No board");
        Design other = fabric().board(new Board("b", "", List.of())).design();
        Question unwired = new Question(other, other.nets().get(0), 0, Corner.SLOW);
        assertThat(only(Kind.UNKNOWN, Cautions.of(unwired)).text()).startsWith("Nothing is known");
        assertThat(cautions("MOTOR")).noneMatch(c -> c.kind() == Kind.UNKNOWN);
    }
}
