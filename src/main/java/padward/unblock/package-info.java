/**
 * Why a question is blocked and what would unblock it: the explanation and its values. Everything
 * here is worked out on top of a design, which stays as it is.
 */
package padward.unblock;
