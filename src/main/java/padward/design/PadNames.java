package padward.design;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * Finds pads by what people call them: the pad's full name, its package pin, the port on it, the
 * board's net, or a pin of a header or test point ({@code J1.3}, {@code TP5}).
 */
public final class PadNames {
    private PadNames() {}

    /** All names of a pad, its full name first. */
    public static List<String> namesOf(Design design, int padIndex) {
        Pad pad = design.fabric().pads().get(padIndex);
        Set<String> names = new LinkedHashSet<>();
        names.add(pad.name());
        if (!pad.packagePin().isEmpty()) {
            names.add(pad.packagePin());
        }
        design.findPortOn(padIndex).ifPresent(p -> names.add(p.name()));
        design.board()
                .findWiring(padIndex)
                .ifPresent(
                        w -> {
                            if (!w.net().isEmpty()) {
                                names.add(w.net());
                            }
                            w.attachments().stream()
                                    .filter(a -> a.kind().probeable())
                                    .map(Attachment::toShortText)
                                    .forEach(names::add);
                        });
        return List.copyOf(names);
    }

    /**
     * Indices of the pads that a text can mean: those with that full name if there are any, else
     * those with that package pin, port, board net or header pin. More than one means that the text
     * is ambiguous.
     */
    public static List<Integer> find(Design design, String text) {
        List<Integer> others = new ArrayList<>();
        for (int i = 0; i < design.fabric().pads().size(); i++) {
            if (design.fabric().pads().get(i).name().equals(text)) {
                return List.of(i);
            }
            if (namesOf(design, i).contains(text)) {
                others.add(i);
            }
        }
        return others;
    }

    /** Where a lead is connected to a pad: header pin, package pin or pad, whichever is known. */
    public static String placeOf(Design design, int padIndex) {
        Pad pad = design.fabric().pads().get(padIndex);
        return design.board()
                .findWiring(padIndex)
                .flatMap(PadWiring::findLeadPlace)
                .map(Attachment::toShortText)
                .orElse(pad.packagePin().isEmpty() ? pad.name() : pad.packagePin());
    }

    /** The index of the pad with exactly this full name. O(pads). */
    public static OptionalInt findExact(Fabric fabric, String fullName) {
        List<Pad> pads = fabric.pads();
        return IntStream.range(0, pads.size())
                .filter(i -> pads.get(i).name().equals(fullName))
                .findFirst();
    }
}
