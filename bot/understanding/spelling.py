"""Misspelt words read as words of this field, by edit distance; never a dictionary's correction ('tounge' is not
'lounge').

A word is changed only when it is neither a word of the frames nor a common word that happens to lie near one, and
when exactly one
field word is nearest. Distance: Damerau-Levenshtein (optimal string alignment); 1 for words of 4 or 5 letters, 2
from 6 letters on when the beginning agrees.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache

from rapidfuzz.distance import OSA

# British and hurried spellings, brought to the one spelling that the frames use.
SAME = {
    "oesophagus": "esophagus", "oesophageal": "esophageal", "oesophagitis": "esophagitis", "diarrhoea":
    "diarrhea", "faeces": "feces", "anaesthetic": "anesthetic", "haematemesis": "hematemesis", "dyspnoea":
    "dyspnea", "oedema": "edema", "mould": "mold", "tummy": "stomach", "hrs": "hours", "hr": "hour", "mins":
    "min", "minutes": "min", "minute": "min", "wks": "weeks", "wk": "week", "u": "you", "ur": "your", "cuz":
    "because", "cos": "because", "coz": "because", "bc": "because", "tho": "though", "w": "with", "n": "and",
    "pls": "please", "plz": "please", "abt": "about", "r": "are", "b4": "before", "tmrw": "tomorrow", "2nite":
    "tonight", "breth": "breath", "thro": "through", "thru": "through", "smth": "something", "sth": "something",
    "nothin": "nothing", "somethin": "something", "wouldve": "would", "cudnt": "couldnt", "cnt": "cant", "wnt":
    "wont", "dnt": "dont", "havnt": "havent", "hav": "have", "doesn": "doesnt", "didn": "didnt", "labour":
    "labor", "laboured": "labored", "colour": "color", "mums": "mum", "swolen": "swollen", "nuffin": "nothing",
    "nuthin": "nothing", "nothink": "nothing", "yest": "yesterday", "nite": "night", "soz": "sorry", "lil":
    "little", "rn": "right_now", "atm": "at_the_moment", "bf": "breakfast", "bfast": "breakfast", "brekkie":
    "breakfast", "brekky": "breakfast", "v": "very", "tbh": "honestly", "prob": "probably", "probs": "probably",
    "def": "definitely", "defo": "definitely", "morn": "morning", "msg": "message", "cdnt": "couldnt", "wudnt":
    "wouldnt", "didny": "didnt", "owt": "anything", "summat": "something", "sumthin": "something", "ova":
    "over", "til": "until", "wth": "with", "wid": "with", "wiv": "with", "fink": "think", "froat": "throat",
    "mouf": "mouth", "teef": "teeth", "swalow": "swallow", "swallo": "swallow", "throush": "thrush", "thruch":
    "thrush", "thush": "thrush", "swalling": "swallowing", "swallering": "swallowing", "sore_throught": "sore",
    "throught": "throat", "thoat": "throat", "thraot": "throat", "esophogus": "esophagus", "vom": "vomit",
    "vommed": "vomited", "vomming": "vomiting", "ambulence": "ambulance", "stomache": "stomach", "temprature":
    "temperature", "tempature": "temperature", "degree": "degrees", "whit": "white", "wite": "white", "thurst":
    "thrush", "sleepin": "sleeping", "eatin": "eating", "feelin": "feeling", "hurtin": "hurting", "burnin":
    "burning", "chokin": "choking", "drinkin": "drinking", "comin": "coming", "goin": "going", "movin":
    "moving", "spittin": "spitting", "throwin": "throwing", "abit": "a_bit", "alot": "a_lot", "aswell": "also",
    "everytime": "every_time", "yday": "yesterday", "appt": "appointment", "ppl": "people", "dr": "doctor",
    "doc": "doctor", "gp": "doctor", "wen": "when", "wat": "what", "dat": "that", "dis": "this", "da": "the",
    "thers": "theres", "ther": "there", "whts": "whats", "rly": "really", "thier": "their", "recieved":
    "received", "blod": "blood", "stuk": "stuck", "stcuk": "stuck", "stuc": "stuck", "bred": "bread",
    "brething": "breathing", "tung": "tongue", "tounge": "tongue", "toung": "tongue",
}

# Spanish words in an English text, as bilingual patients write them.
MIXED = {
    "pollo": "chicken", "carne": "meat", "agua": "water", "comida": "food", "garganta": "throat", "pecho": "chest",
    "dolor": "pain", "duele": "hurts", "sangre": "blood", "fiebre": "fever", "lengua": "tongue", "boca": "mouth",
    "tapon": "plug", "atorado": "stuck", "atorada": "stuck", "atascado": "stuck", "atascada": "stuck", "atoro": "stuck",
    "trague": "swallowed", "tragar": "swallow", "trago": "swallow", "respirar": "breathe", "vomito": "vomit",
    "vomite": "vomited", "vomitando": "vomiting", "labios": "lips", "hinchado": "swollen", "hinchada": "swollen",
    "mareado": "dizzy", "mareada": "dizzy", "manchas": "patches", "blancas": "white", "escupir": "spit",
    "escupiendo": "spitting", "babeando": "drooling", "cuello": "neck", "ronchas": "hives", "ahogo": "choking",
    "ahogando": "choking", "desmaye": "fainted", "ampollas": "blisters", "embarazada": "pregnant", "pastilla": "pill",
    "hijo": "son", "hija": "daughter", "nino": "child", "quedo": "stuck", "regresa": "comes_back", "esofago":
    "esophagus", "ardor": "burning", "quema": "burns", "negro": "black", "popo": "poop",
}

SAME_ES = {
    "q": "que", "k": "que", "xq": "porque", "pq": "porque", "tb": "tambien", "tmb": "tambien", "x": "por",
    "sta": "esta", "toy": "estoy", "toi": "estoy", "hrs": "horas", "hr": "hora", "mins": "min", "minutos":
    "min", "minuto": "min", "ta": "esta", "bn": "bien", "tngo": "tengo", "grax": "gracias", "dr": "doctor",
    "dra": "doctor", "exofago": "esofago", "gargant": "garganta", "atascao": "atascado", "atorao": "atorado",
    "pa": "para", "naa": "nada", "vomitao": "vomitado", "tragao": "tragado", "hinchao": "hinchado", "mareao":
    "mareado", "cansao": "cansado", "sierra": "cierra", "ay": "hay",
}


class Speller:
    """Corrects words towards one vocabulary. `protected` words are never changed."""

    def __init__(self, vocabulary: Iterable[str], protected: Iterable[str], same: Mapping[str, str]) -> None:
        self._same = same
        self._known = frozenset(vocabulary)
        self._protected = frozenset(protected)
        self._by_length: dict[int, list[str]] = {}
        for word in sorted(self._known):
            if len(word) >= 4:
                self._by_length.setdefault(len(word), []).append(word)
        self.correct = lru_cache(maxsize=20000)(self._correct)

    def _correct(self, word: str) -> str:
        """The field's spelling of a word, or the word itself."""
        if word in self._same:
            return self._same[word]
        if word in self._known or word in self._protected or len(word) < 4 or not word.isalpha():
            return word
        reach = 1 if len(word) < 6 else 2
        best: list[str] = []
        least = reach + 1
        for length in range(len(word) - reach, len(word) + reach + 1):
            for candidate in self._by_length.get(length, ()):
                if len(word) < 6 and candidate[0] != word[0]:
                    continue
                distance = OSA.distance(word, candidate, score_cutoff=least)
                if distance == 2 and (candidate[:2] != word[:2] if len(word) < 8 else candidate[0] != word[0]):
                    continue
                if distance < least:
                    best, least = [candidate], distance
                elif distance == least and distance <= reach:
                    best.append(candidate)
        if least > reach or not best:
            return word
        same_start = [candidate for candidate in best if candidate[:2] == word[:2]] or best
        return sorted(same_start, key=lambda candidate: (abs(len(candidate) - len(word)), candidate))[0]
