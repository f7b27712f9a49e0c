"""The care team's half: their chat, the patient card, the digest, plan changes, admission."""
