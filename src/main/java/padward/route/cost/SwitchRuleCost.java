package padward.route.cost;

/**
 * The costs of another model, and what a rule adds for switches that others of their group exclude.
 * Searches are far faster without the rule, so they try that first: see {@link
 * padward.route.search.SwitchGroupSearch}.
 *
 * @param base the costs without the rule
 * @param rule what is added
 */
public record SwitchRuleCost(CostModel base, SwitchRule rule) implements CustomCost {
    /** The costs of a model without the rule that it may have. */
    public static CostModel withoutRule(CostModel model) {
        return model instanceof SwitchRuleCost both ? both.base : model;
    }

    /** The rule of a model, {@link SwitchRule#NONE} if it has none. */
    public static SwitchRule ruleOf(CostModel model) {
        return model instanceof SwitchRuleCost both ? both.rule : SwitchRule.NONE;
    }

    @Override
    public long cost(int from, int to, int delayPs) {
        long cost = base.cost(from, to, delayPs);
        if (cost == CLOSED) {
            return CLOSED;
        }
        long more = rule.price(from, to);
        return more == CLOSED ? CLOSED : cost + more;
    }
}
