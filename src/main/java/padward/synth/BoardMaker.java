package padward.synth;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.PadWiring;

/**
 * Makes the board around a made design: each pad in use is wired to a part, and one pad in four to
 * a header.
 */
final class BoardMaker {
    private static final int PINS_PER_HEADER = 20;

    private BoardMaker() {}

    static Board make(DraftNetlist plan, Random random) {
        List<PadWiring> wirings = new ArrayList<>();
        int headerPins = 0;
        for (int pad = 0; pad < plan.fabric.pads().size(); pad++) {
            int index = pad;
            Optional<Port> port = plan.ports.stream().filter(p -> p.pad() == index).findFirst();
            List<Attachment> attached = new ArrayList<>();
            port.ifPresent(p -> attached.add(partner(p, index, random)));
            boolean onHeader = random.nextInt(4) == 0;
            if (onHeader) {
                attached.add(
                        new Attachment(
                                AttachmentKind.HEADER,
                                "J" + (1 + headerPins / PINS_PER_HEADER),
                                String.valueOf(1 + headerPins % PINS_PER_HEADER)));
                headerPins++;
            }
            if (!attached.isEmpty()) {
                String net = port.map(p -> "B_" + p.name()).orElse("FREE_" + pad);
                double trace = 8 + Math.round(random.nextDouble() * 900) / 10.0;
                wirings.add(new PadWiring(pad, net, trace, attached));
            }
        }
        return new Board(
                "heron-" + plan.fabric.columns(), "Invented board, made from a seed.", wirings);
    }

    private static Attachment partner(Port port, int pad, Random random) {
        if (port.direction() == PortDirection.IN) {
            return new Attachment(AttachmentKind.DRIVER, "U" + (1 + pad / 8), "" + (1 + pad % 8));
        }
        AttachmentKind[] kinds = {
            AttachmentKind.LOAD, AttachmentKind.LIGHT, AttachmentKind.TESTPOINT
        };
        AttachmentKind kind = kinds[random.nextInt(kinds.length)];
        String letter =
                switch (kind) {
                    case LIGHT -> "D";
                    case TESTPOINT -> "TP";
                    default -> "U";
                };
        return new Attachment(kind, letter + (100 + pad), "");
    }
}
