package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.PadWiring;
import padward.example.OddDesigns;

/** A group never takes the pad of a working port, unless that is asked for. */
class KeptPortsProperties {
    private static Design withBoard(Design design, Random random) {
        List<PadWiring> wirings = new ArrayList<>();
        for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
            List<Attachment> parts = new ArrayList<>();
            for (AttachmentKind kind : AttachmentKind.values()) {
                if (random.nextInt(4) == 0) {
                    parts.add(new Attachment(kind, kind.name() + pad, "1"));
                }
            }
            wirings.add(new PadWiring(pad, "", 0, parts));
        }
        return new Design(
                design.name(),
                design.note(),
                design.fabric(),
                new Board("random", "invented", wirings),
                List.copyOf(design.cells()),
                List.copyOf(design.nets()),
                List.copyOf(design.ports()));
    }

    @Test
    void onAThousandDesignsWithBoardsNoPortLosesItsPad() {
        int lines = 0;
        int taken = 0;
        for (long seed = 0; seed < 1_000; seed++) {
            Random random = new Random(seed);
            Design design = withBoard(OddDesigns.make(seed), random);
            List<Net> nets = List.copyOf(design.nets()).stream().limit(4).toList();
            List<Integer> pads = IntStream.range(0, design.fabric().pads().size()).boxed().toList();
            Bus.Aim aim = Bus.Aim.values()[random.nextInt(Bus.Aim.values().length)];
            Bus kept = Bus.of(design, nets, pads, aim, Bus.Ports.KEEP, Progress.NONE);
            lines += kept.lines().size();
            assertThat(kept.edits()).as("seed " + seed).noneMatch(this::disconnects);
            assertThat(kept.price(design).ports()).as("seed " + seed).isEmpty();
            Design after = Outcome.apply(design, kept.edits());
            for (Port port : design.ports()) {
                assertThat(after.findPort(port.name())).as("seed " + seed).contains(port);
                assertThat(after.netsAtPort(port.id()).size())
                        .as("seed " + seed)
                        .isEqualTo(design.netsAtPort(port.id()).size());
            }
            Bus may = Bus.of(design, nets, pads, aim, Bus.Ports.MAY_DISCONNECT, Progress.NONE);
            List<String> lost =
                    may.edits().stream()
                            .filter(this::disconnects)
                            .map(e -> ((Edit.DisconnectPort) e).port())
                            .toList();
            taken += lost.size();
            // What is taken is told.
            assertThat(may.price(design).ports().stream().map(p -> p.name()).toList())
                    .as("seed " + seed)
                    .containsExactlyInAnyOrderElementsOf(lost);
        }
        assertThat(lines).isGreaterThan(500);
        assertThat(taken).isGreaterThan(50);
    }

    private boolean disconnects(Edit edit) {
        return edit instanceof Edit.DisconnectPort;
    }
}
