package padward.watch.library;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import padward.base.BadInput;
import padward.watch.circuit.Signal;
import padward.watch.condition.ConditionNetNames;
import padward.watch.library.Specification.OfNets;
import padward.watch.library.Specification.Rule;

/**
 * A drawn circuit of the library over six nets, with what its first output must show.
 *
 * @param recipe the circuit
 * @param rule its output, from the levels of the nets in their order
 * @param from first cycle in which the rule holds, when all registers start low
 */
public record DrawnRecipe(Recipe recipe, Rule rule, int from) {
    /** Nets that a drawn circuit observes. */
    public static final int NETS = 6;

    private static final int SORTS = 14;

    /** Draws one over six nets and a clock of a design. */
    public static DrawnRecipe of(
            List<String> n, String clock, ConditionNetNames names, Random random) throws BadInput {
        boolean registered = random.nextBoolean();
        Optional<String> perhaps = registered ? Optional.of(clock) : Optional.empty();
        int late = registered ? 1 : 0;
        Event three =
                Event.of("t", n.get(0) + " && !" + n.get(1) + " || " + n.get(2) + "==0", names);
        OfNets isThree = l -> l[0] && !l[1] || !l[2];
        Event one = Event.of("t", n.get(3), names);
        Event rare = Event.of("t", n.get(4) + "&&" + n.get(5) + "&&" + n.get(3), names);
        OfNets isRare = l -> l[4] && l[5] && l[3];
        int number = 2 + random.nextInt(9);
        List<Signal> steer = List.of(new Signal.Observed(n.get(4)), new Signal.Observed(n.get(5)));
        return switch (random.nextInt(SORTS)) {
            case 0 ->
                    new DrawnRecipe(
                            new Trigger(three, perhaps, registered),
                            Specification.later(late, isThree),
                            late);
            case 1 ->
                    new DrawnRecipe(
                            new Trigger(
                                    Event.of("t", "rising(" + n.get(0) + ") || " + n.get(1), names),
                                    Optional.of(clock),
                                    registered),
                            (past, t) ->
                                    past.get(t - late)[0] && !past.get(t - late - 1)[0]
                                            || past.get(t - late)[1],
                            late + 1);
            case 2 ->
                    new DrawnRecipe(
                            new Select(n.subList(0, 4), steer, perhaps),
                            Specification.later(late, l -> l[(l[4] ? 1 : 0) + (l[5] ? 2 : 0)]),
                            late);
            case 3 ->
                    new DrawnRecipe(
                            new Select(n.subList(0, 3), steer, perhaps),
                            Specification.later(
                                    late,
                                    l -> !(l[4] && l[5]) && l[(l[4] ? 1 : 0) + (l[5] ? 2 : 0)]),
                            late);
            case 4 ->
                    new DrawnRecipe(
                            new Divide(clock, number, Optional.empty()),
                            (past, t) -> t % number >= (number + 1) / 2,
                            0);
            case 5 ->
                    new DrawnRecipe(
                            new Divide(clock, number, Optional.of(one)),
                            (past, t) -> {
                                long counted =
                                        past.subList(0, t).stream().filter(l -> l[3]).count();
                                return counted % number >= (number + 1) / 2;
                            },
                            0);
            case 6 ->
                    new DrawnRecipe(
                            new Toggle(one, clock),
                            (past, t) -> {
                                int edges =
                                        Specification.edges(past, t, l -> l[3])
                                                + (past.get(0)[3] ? 1 : 0);
                                return edges % 2 != 0;
                            },
                            1);
            case 7 ->
                    new DrawnRecipe(
                            new Stretch(rare, clock, number),
                            Specification.stretched(number, isRare),
                            number + 2);
            case 8 ->
                    new DrawnRecipe(
                            new Sticky(
                                    rare, clock, Optional.of(Event.of("t", "!" + n.get(0), names))),
                            Specification.remembered(isRare, l -> !l[0]),
                            0);
            case 9 ->
                    new DrawnRecipe(
                            new Synchronised(n.get(1), clock),
                            Specification.later(2, l -> l[1]),
                            2);
            case 10 ->
                    new DrawnRecipe(
                            new Registered(n.get(2), clock), Specification.later(1, l -> l[2]), 1);
            case 11 ->
                    new DrawnRecipe(
                            new AnyChange(n.subList(0, 4), clock),
                            (past, t) -> {
                                for (int i = 0; i < 4; i++) {
                                    if (past.get(t - 1)[i] != past.get(t - 2)[i]) {
                                        return true;
                                    }
                                }
                                return false;
                            },
                            2);
            case 12 ->
                    new DrawnRecipe(
                            new Parity(n, perhaps),
                            Specification.later(late, l -> l[0] ^ l[1] ^ l[2] ^ l[3] ^ l[4] ^ l[5]),
                            late);
            default ->
                    new DrawnRecipe(
                            new Signature(n.subList(0, 3), clock, rare, Optional.empty()),
                            (past, t) -> (Specification.check(past, t, 3, isRare) & 0x8000) != 0,
                            0);
        };
    }
}
